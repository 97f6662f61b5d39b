import type { RenderProgress } from '../host/lay-tile.ts';
import { limitsOf, type RenderFlags } from './options.ts';
import { progressLine } from './progress.ts';

/** Runs work that takes a while: says how long, shows its progress and lets Ctrl-C stop it cleanly. */
export async function runLong<T>(
  flags: Pick<RenderFlags, 'workers' | 'json' | 'timeLimit' | 'memoryLimit'>,
  work: (progress: RenderProgress) => Promise<T>,
): Promise<T> {
  const line = progressLine(process.stderr, flags.json);
  const stopping = new AbortController();
  const stop = () => stopping.abort();
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
  try {
    return await work({
      workers: flags.workers,
      limits: limitsOf(flags),
      signal: stopping.signal,
      onGuess: line.expect,
      onProgress: (done, what) => line.show(done, what),
    });
  } finally {
    line.clear();
    process.off('SIGINT', stop);
    process.off('SIGTERM', stop);
  }
}
