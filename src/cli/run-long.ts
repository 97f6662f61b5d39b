import { tellParent } from '../host/code/parent.ts';
import type { RenderProgress } from '../host/lay-tile.ts';
import { limitsOf, type RenderFlags } from './options.ts';
import { progressLine } from './progress.ts';
import { untilStopped } from './stop-signals.ts';

/** Runs work that takes a while: says how long, shows its progress and lets Ctrl-C stop it cleanly. */
export async function runLong<T>(
  flags: Pick<RenderFlags, 'workers' | 'json' | 'timeLimit' | 'memoryLimit'>,
  work: (progress: RenderProgress) => Promise<T>,
): Promise<T> {
  const line = progressLine(process.stderr, flags.json);
  try {
    return await untilStopped((signal) =>
      work({
        workers: flags.workers,
        limits: limitsOf(flags),
        signal,
        onGuess: line.expect,
        onProgress: (done, what) => {
          line.show(done, what);
          tellParent(done);
        },
      }),
    );
  } finally {
    line.clear();
  }
}
