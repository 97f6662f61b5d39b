import type { Quality, Report } from '../effect/effect.ts';
import { cancelled } from '../effect/setting.ts';
import type { Grid } from '../repeat/grid.ts';
import { isReflected } from '../repeat/layout.ts';
import { Crew } from './crew.ts';
import type { CrewTask } from './crew-task.ts';
import { type Frame, unfoldFrame, unfoldGrid } from './frame.ts';
import type { Limits } from './limits.ts';
import { readMasks } from './mask-pictures.ts';
import type { Prepared } from './orders.ts';
import { groupSteps, planPasses } from './passes.ts';
import type { PlaneRange } from './ranges.ts';
import type { RenderStep } from './step.ts';

/**
 * Whether the texture of a reflected layout is drawn once over the whole unfolded cloth (a weave
 * does not mirror), or is reflected with the artwork and meets its mirror lines without a crease.
 */
export type Follow = 'cloth' | 'artwork';

export interface RenderJob {
  /** Of the tile's repeat. */
  readonly grid: Grid;
  /** The artwork tile, `grid.tileWidth` x `grid.tileHeight`; its memory is used for the result. */
  readonly tile: Frame;
  readonly steps: readonly RenderStep[];
  readonly follow: Follow;
  /** `finished` where absent. */
  readonly quality?: Quality;
}

export interface RenderOptions {
  /** Threads; by default all cores. */
  readonly workers?: number;
  /** How much an effect may take; for a crew of one's own, that crew's limits count. */
  readonly limits?: Partial<Limits>;
  /** A crew to use and keep; by default one is hired and dismissed. */
  readonly crew?: Crew;
  /** True to have the range of every plane painted. */
  readonly measure?: boolean;
  readonly signal?: AbortSignal;
  /** Told how far the render has come, 0..1. */
  readonly onProgress?: (done: number) => void;
}

export interface Rendered {
  readonly frame: Frame;
  /** Of the result: straight, drop or brick, unless the texture followed the artwork. */
  readonly grid: Grid;
  /** What the effect of each step reported. */
  readonly reports: readonly (readonly Report[])[];
  /** ms of each stage. */
  readonly timings: { readonly prepare: number; readonly paint: number };
  /** Of the planes of each step, where `measure` asked for them. */
  readonly ranges: readonly (readonly PlaneRange[])[];
}

/** Of the progress shown, the part for preparing: a guess that only has to keep the display moving. */
const PREPARE_SHARE = 0.1;

/**
 * Lays the steps over the tile: unfold, prepare each effect once, then paint and lay band by band.
 * The bytes are the same for any number of workers.
 *
 * @throws Fault of kind `effect` (stamped), `usage`, `input` (a mask picture) or `cancelled`.
 */
export async function renderTile(job: RenderJob, options: RenderOptions = {}): Promise<Rendered> {
  if (options.signal?.aborted) throw cancelled();
  const crew = options.crew ?? new Crew(options.workers, options.limits);
  const task = crew.begin();
  const stop = () => task.cancel();
  options.signal?.addEventListener('abort', stop, { once: true });
  try {
    return await renderWith(task, job, options);
  } finally {
    options.signal?.removeEventListener('abort', stop);
    task.end();
    if (!options.crew) await crew.close();
  }
}

async function renderWith(
  task: CrewTask,
  job: RenderJob,
  { onProgress = () => {}, measure }: RenderOptions,
): Promise<Rendered> {
  const started = performance.now();
  const masks = await readMasks(job.steps, job.grid);
  const prepared = await prepareSteps(task, job, (done) => onProgress(done * PREPARE_SHARE));
  const painting = performance.now();
  const steps = job.steps.map((step, index) => ({
    step,
    prepared: prepared[index],
    maskSamples: masks[index],
  }));
  const space = isReflected(job.grid.repeat.layout) && job.follow === 'artwork' ? 'tile' : 'box';
  const frame = space === 'tile' ? job.tile : unfoldFrame(job.tile, job.grid);
  const passes = planPasses(groupSteps(steps), frame, job.grid, space);
  let rows = 0;
  const ranges: (readonly PlaneRange[])[] = [];
  for (const pass of passes) {
    const measured = await task.runPass({ ...pass, measure }, (more) => {
      rows += more;
      onProgress(PREPARE_SHARE + ((1 - PREPARE_SHARE) * rows) / (frame.height * passes.length));
    });
    ranges.push(...measured);
  }
  return {
    frame: { ...frame, pixels: passes.at(-1)?.target ?? frame.pixels },
    grid: space === 'tile' ? job.grid : unfoldGrid(job.grid),
    reports: prepared.map(({ reports }) => reports),
    timings: { prepare: painting - started, paint: performance.now() - painting },
    ranges,
  };
}

function prepareSteps(
  task: CrewTask,
  job: RenderJob,
  onProgress: (done: number) => void,
): Promise<Prepared[]> {
  const shares = job.steps.map(() => 0);
  const orders = job.steps.map(({ order }) => ({
    kind: 'prepare' as const,
    effect: order,
    box: job.grid.box,
    quality: job.quality ?? 'finished',
  }));
  return task.prepare(orders, (step, done) => {
    shares[step] = done;
    onProgress(shares.reduce((sum, share) => sum + share, 0) / shares.length);
  });
}
