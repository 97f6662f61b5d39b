import { cancelled } from '../effect/setting.ts';
import type { RenderJob } from '../render/job.ts';
import { type Rendered, type RenderMemory, type RenderTools, renderTile } from '../render/render.ts';
import { readMasks } from './mask-pictures.ts';
import { openPictureFiles, type PictureFiles, withPictures } from './parameter-pictures.ts';
import { Crew } from './threads/crew.ts';
import type { Limits } from './threads/limits.ts';

export interface CrewOptions extends Pick<RenderTools, 'measure' | 'onProgress' | 'whenFree'> {
  /** Threads; by default all cores. */
  readonly workers?: number;
  /** How much an effect may take; for a crew of one's own, that crew's limits count. */
  readonly limits?: Partial<Limits>;
  /** A crew to use and keep; by default one is hired and dismissed. */
  readonly crew?: Crew;
  readonly memory?: RenderMemory;
  /** Reads what picture parameters name; by default each file once for this render. */
  readonly pictures?: PictureFiles;
  readonly signal?: AbortSignal;
}

/**
 * Renders on threads: reads the pictures of masks and parameters, and gives all up at once where `signal` asks.
 *
 * @throws Fault of kind `effect` (stamped), `usage`, `input` (a picture) or `cancelled`.
 */
export async function renderOnCrew(job: RenderJob, options: CrewOptions = {}): Promise<Rendered> {
  const { signal, memory, measure, onProgress, whenFree } = options;
  if (signal?.aborted) throw cancelled();
  const crew = options.crew ?? new Crew(options.workers, options.limits, true);
  const task = crew.begin();
  const stop = () => task.cancel();
  signal?.addEventListener('abort', stop, { once: true });
  try {
    const masks = await readMasks(job.steps, job.grid);
    const files = options.pictures ?? openPictureFiles();
    const steps = await withPictures(job.steps, files, (bytes) => task.expect(bytes));
    return await renderTile({ ...job, steps }, { crew: task, masks, memory, measure, onProgress, whenFree });
  } finally {
    signal?.removeEventListener('abort', stop);
    task.end();
    if (!options.crew) await crew.close();
  }
}
