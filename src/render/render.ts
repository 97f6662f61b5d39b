import type { Frame } from '../colour/frame.ts';
import { DEFAULT_LIGHT } from '../composite/light.ts';
import type { Report } from '../effect/effect.ts';
import type { Grid } from '../repeat/grid.ts';
import { type Allot, unfoldFrame, unfoldGrid } from './frame.ts';
import { followsArtwork, type RenderJob, spaceOf, withArtwork } from './job.ts';
import { layerPlace } from './layer-place.ts';
import { keptOf, lendLayers } from './lend-layers.ts';
import { laidShare } from './mask.ts';
import type { PassOrder } from './orders.ts';
import { groupSteps, planPasses } from './passes.ts';
import { prepareSteps } from './prepare-steps.ts';
import type { PlaneRange } from './ranges.ts';
import type { RenderCrew } from './render-crew.ts';
import type { TextureKeeper } from './textures.ts';

export type { RenderCrew };

/** Where pictures under way find room, and what may be used again. */
export interface RenderMemory {
  /** By default in fresh shared memory. */
  readonly allot?: Allot;
  /** Keeps models and layers for other renders; measured ranges are then those of what was painted here. */
  readonly textures?: TextureKeeper;
}

/** Of each step, where it has a mask picture: one per pixel of the tile. */
type MaskSamples = readonly (Uint8Array | undefined)[];

export interface RenderTools {
  readonly crew: RenderCrew;
  /** The samples of each step's mask picture, one per pixel of the tile, where it has one. */
  readonly masks: MaskSamples | Promise<MaskSamples>;
  readonly memory?: RenderMemory;
  /** True to have the range of every plane painted. */
  readonly measure?: boolean;
  /** Told how far the render has come, 0..1. */
  readonly onProgress?: (done: number) => void;
  /** Until then others read the tile, whose memory is painted into. */
  readonly whenFree?: Promise<unknown>;
}

export interface Rendered {
  readonly frame: Frame;
  /** Of the result: straight, drop or brick, unless the texture followed the artwork. */
  readonly grid: Grid;
  /** What the effect of each step reported. */
  readonly reports: readonly (readonly Report[])[];
  /** The share of the frame that the mask of each step let through, 0..1; none for a step without a mask. */
  readonly laidOn: readonly (number | undefined)[];
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
 * @throws Fault of kind `effect` (stamped), `usage` or `cancelled`, as the crew throws it.
 */
export async function renderTile(
  given: RenderJob,
  { crew, masks, memory: { textures, allot } = {}, measure, onProgress = () => {}, whenFree }: RenderTools,
): Promise<Rendered> {
  const started = performance.now();
  const job = withArtwork(given);
  const prepared = await prepareSteps(crew, job, textures, (done) => onProgress(done * PREPARE_SHARE));
  await whenFree;
  const samples = await masks;
  const painting = performance.now();
  const space = spaceOf(job);
  const frame = space === 'tile' ? job.tile : unfoldFrame(job.tile, job.grid, allot);
  const places = prepared.map(({ planes }, index) => layerPlace(job, index, planes));
  const lent = await lendLayers(places, textures);
  const ranges: (readonly PlaneRange[])[] = [];
  let isPainted = false;
  let passes: PassOrder[];
  try {
    const steps = job.steps.map((step, index) => ({
      step,
      prepared: prepared[index],
      maskSamples: samples[index],
      kept: keptOf(lent[index]),
    }));
    const { grid, light = DEFAULT_LIGHT } = job;
    const follows = followsArtwork(job);
    passes = planPasses(groupSteps(steps), frame, { grid, space, follows, light }, allot);
    let rows = 0;
    for (const pass of passes) {
      const measured = await crew.runPass({ ...pass, measure }, (more) => {
        rows += more;
        onProgress(PREPARE_SHARE + ((1 - PREPARE_SHARE) * rows) / (frame.height * passes.length));
      });
      ranges.push(...measured);
    }
    isPainted = true;
  } finally {
    for (const layer of lent) layer?.end(isPainted);
  }
  return {
    frame: { ...frame, pixels: passes.at(-1)?.target ?? frame.pixels },
    grid: space === 'tile' ? job.grid : unfoldGrid(job.grid),
    reports: prepared.map(({ reports }) => reports),
    laidOn: passes
      .flatMap(({ steps }) => steps)
      .filter(({ isOnlyRead }) => !isOnlyRead)
      .map(({ mask }) => mask && laidShare(mask, frame.width * frame.height)),
    timings: { prepare: painting - started, paint: performance.now() - painting },
    ranges,
  };
}
