import type { Frame } from '../colour/frame.ts';
import { shareBlank } from '../colour/samples.ts';
import type { SeamReport } from '../inspect/index.ts';
import { type Bits, JPEG_QUALITY, writePictures } from '../picture/index.ts';
import { type RenderJob, spaceOf } from '../render/job.ts';
import { watchMasks } from '../render/laid-masks.ts';
import { maskWarning } from '../render/mask-words.ts';
import type { Rendered, RenderMemory } from '../render/render.ts';
import { checkResult, type ResultCheck } from '../render/verdict.ts';
import type { Grid } from '../repeat/grid.ts';
import { formatLayout, isReflected } from '../repeat/layout.ts';
import { formatSize } from '../repeat/length.ts';
import { type ByHand, makeByHand, openPlaneKeeper } from './by-hand.ts';
import { type CrewOptions, renderOnCrew } from './render-on-crew.ts';

/** What is laid over which artwork, and where it goes. */
export interface LayWork extends Omit<RenderJob, 'tile'> {
  readonly artwork: Frame;
  /** True where others read the artwork's pixels as well: nothing is then written into them. */
  readonly isShared?: boolean;
  /** .png, .tif or .tiff; .jpg for a proof. */
  readonly out: string;
  readonly overwrite?: boolean;
  /** Writes the texture of the only step for laying by hand, in one to several pictures named after `out`. */
  readonly byHand?: boolean;
}

export interface LayTools extends CrewOptions {
  /** Checks whether a result closes; by default on this thread. */
  readonly check?: (order: ResultCheck) => Promise<SeamReport>;
  /** Told when all is painted. */
  readonly onWriting?: () => void;
}

/** What was written. */
export interface Laid extends Omit<Rendered, 'frame' | 'timings'> {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Of all that was written. */
  readonly bytes: number;
  /** The pictures for laying by hand, where these were asked for. */
  readonly byHand?: ByHand;
  readonly seams: SeamReport;
  /** What was done besides, e.g. a tile unfolded. */
  readonly notes: readonly string[];
  /** What the user should look at, e.g. a mask that took nothing. */
  readonly warnings: readonly string[];
  /** ms of each stage. */
  readonly timings: Readonly<Record<'prepare' | 'paint' | 'write', number>>;
}

/**
 * The one way from artwork in memory to a picture on disk: renders, checks and writes. The check runs
 * while the picture is written.
 *
 * @throws Fault of any kind; nothing is then at `out` but what was there before.
 */
export async function lay(work: LayWork, tools: LayTools = {}): Promise<Laid> {
  const { artwork, grid, out, overwrite, byHand } = work;
  const keeper = byHand ? openPlaneKeeper() : undefined;
  const memory = keeper ? { ...tools.memory, textures: keeper.textures } : tools.memory;
  const tellMasks = watchMasks(work.steps, artwork);
  const rendered = await renderOnCrew({ ...work, tile: tileOf(work, tools.memory) }, { ...tools, memory });
  tools.onWriting?.();
  const started = performance.now();
  const { frame: result, grid: resultGrid, reports, ranges, laidOn, timings } = rendered;
  const masks = tellMasks(laidOn);
  const check = tools.check ?? ((order: ResultCheck) => checkResult(order));
  const order: ResultCheck = { result, resultGrid, artwork, grid };
  const made = keeper && makeByHand(keeper.layer(), work.steps[0], resultGrid, out);
  const bits: Bits = result.pixels instanceof Uint16Array ? 16 : 8;
  const pictures = made?.pictures ?? [{ path: out, picture: { ...result, bits } }];
  const pixelsPerMm = { x: 1 / resultGrid.mmPerPixelX, y: 1 / resultGrid.mmPerPixelY };
  const writing = writePictures(
    pictures.map(({ path, picture }) => ({ path, picture: { ...picture, pixelsPerMm } })),
    { overwrite, signal: tools.signal },
  );
  const [written, seams] = await bothOf(writing, check(order));
  return {
    grid: resultGrid,
    widthPx: result.width,
    heightPx: result.height,
    reports,
    ranges,
    laidOn,
    bytes: written.reduce((sum, { bytes }) => sum + bytes, 0),
    byHand: made?.facts,
    seams,
    notes: notesOf(work, resultGrid),
    warnings: masks.map(maskWarning).filter((words) => words !== undefined),
    timings: { ...timings, write: performance.now() - started },
  };
}

/** A render works in the memory of its tile, unless it unfolds it. */
function tileOf(work: LayWork, memory: RenderMemory = {}): Frame {
  const { artwork, isShared, grid } = work;
  const unfolds = isReflected(grid.repeat.layout) && spaceOf(work) === 'box';
  if (!isShared || unfolds) return artwork;
  const { pixels, width, height } = artwork;
  const copy = (memory.allot ?? shareBlank)(pixels, pixels.length);
  copy.set(pixels);
  return { pixels: copy, width, height };
}

/** Waits for both even where one fails: the pixels must not be given up under the other's hands. */
async function bothOf<A, B>(first: Promise<A>, second: Promise<B> | B): Promise<[A, B]> {
  await Promise.allSettled([first, second]);
  return Promise.all([first, second]);
}

function notesOf({ grid, quality, out }: LayWork, result: Grid): string[] {
  const notes: string[] = [];
  const { layout } = grid.repeat;
  if (isReflected(layout) && result !== grid)
    notes.push(
      `the ${formatLayout(layout)} tile was unfolded; the result stands straight, ${formatSize(result.repeat)}`,
    );
  if (quality === 'sketch') notes.push('a sketch: simulated on a coarser grid, not for print');
  if (/\.jpe?g$/i.test(out))
    notes.push(`a JPEG of quality ${JPEG_QUALITY}: a proof to look at, not for print`);
  return notes;
}
