import type { Frame } from '../colour/frame.ts';
import { shareBlank } from '../colour/samples.ts';
import { Fault } from '../fault.ts';
import type { SeamReport } from '../inspect/index.ts';
import { type Bits, JPEG_QUALITY, writePictures } from '../picture/index.ts';
import { isOpaque } from '../picture/opaque.ts';
import { unfoldFrame } from '../render/frame.ts';
import { type RenderJob, spaceOf } from '../render/job.ts';
import { watchMasks } from '../render/laid-masks.ts';
import { maskWarning } from '../render/mask-words.ts';
import type { Rendered, RenderMemory } from '../render/render.ts';
import { checkResult, type ResultCheck } from '../render/verdict.ts';
import type { Grid } from '../repeat/grid.ts';
import { formatLayout, isReflected } from '../repeat/layout.ts';
import { formatSize } from '../repeat/length.ts';
import { type ByHand, makeByHand, openPlaneKeeper } from './by-hand.ts';
import { type ScreenedFacts, screenPicture } from './ink/screen-picture.ts';
import { screenNotes, screenWarnings } from './ink/screen-words.ts';
import type { Screens } from './ink/screens.ts';
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
  /** That the result is made of counted inks, and how; in continuous tone where absent. */
  readonly screens?: Screens;
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
  /** Of a result of counted inks. */
  readonly screened?: ScreenedFacts;
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
export async function lay(given: LayWork, tools: LayTools = {}): Promise<Laid> {
  // The flats are found in the artwork once all is laid: nothing may be painted into it.
  const work = given.screens ? { ...given, isShared: true } : given;
  const { artwork, grid, out, overwrite, byHand, screens } = work;
  if (screens) requireExact(out);
  const keeper = byHand ? openPlaneKeeper() : undefined;
  const memory = keeper ? { ...tools.memory, textures: keeper.textures } : tools.memory;
  const tellMasks = watchMasks(work.steps, artwork);
  const rendered = await renderOnCrew({ ...work, tile: tileOf(work, tools.memory) }, { ...tools, memory });
  const started = performance.now();
  const { grid: resultGrid, reports, ranges, laidOn, timings } = rendered;
  const screened = screens && (await screenRendered(rendered, work, screens, tools));
  const result = screened?.frame ?? rendered.frame;
  tools.onWriting?.();
  const masks = tellMasks(laidOn);
  const check = tools.check ?? ((order: ResultCheck) => checkResult(order));
  const opaque = isOpaque(result.pixels);
  const order: ResultCheck = { result: { ...result, isOpaque: opaque }, resultGrid, artwork, grid };
  const made = keeper && makeByHand(keeper.layer(), work.steps[0], resultGrid, out);
  const bits: Bits = result.pixels instanceof Uint16Array ? 16 : 8;
  const pictures = made?.pictures ?? [{ path: out, picture: { ...result, bits, isOpaque: opaque } }];
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
    screened: screened?.facts,
    seams,
    notes: [...notesOf(work, resultGrid), ...screenNotes(screened?.facts)],
    warnings: [
      ...masks.map(maskWarning).filter((words) => words !== undefined),
      ...screenWarnings(screened?.facts),
    ],
    timings: { ...timings, write: performance.now() - started },
  };
}

/** What was rendered, of counted inks: held against the artwork laid out as the result is. */
function screenRendered(
  { frame: result, grid }: Rendered,
  { artwork, grid: tileGrid }: LayWork,
  screens: Screens,
  { signal }: LayTools,
) {
  const isUnfolded = result.width !== artwork.width || result.height !== artwork.height;
  const under = isUnfolded ? unfoldFrame(artwork, tileGrid) : artwork;
  return screenPicture({ artwork: under, result, grid }, screens, signal);
}

/** @throws Fault (usage) for a picture that would not keep its colours. */
function requireExact(out: string): void {
  if (!/\.jpe?g$/i.test(out)) return;
  throw new Fault({
    kind: 'usage',
    expected: 'a PNG or TIFF',
    subject: 'a result of counted inks',
    received: out,
    remedy: 'A JPEG makes more colours than there are inks: name the file .png or .tif.',
  });
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
