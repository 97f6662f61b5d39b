import { parseHex } from '../colour/hex.ts';
import { takeOffPaper } from '../composite/index.ts';
import type { Quality, Report } from '../effect/effect.ts';
import { checkSeams, type SeamReport } from '../inspect/index.ts';
import { readPicture, refuseInputs, refuseOverwrite, writePicture } from '../picture/index.ts';
import { fitGrid, type Grid, gridAtDensity } from '../repeat/grid.ts';
import { formatLayout, isReflected, type Layout } from '../repeat/layout.ts';
import { formatDensity, formatSize, requireSize, type Size } from '../repeat/length.ts';
import { type Frame, plainFrame } from './frame.ts';
import { type Follow, type Rendered, type RenderOptions, renderTile } from './render.ts';
import { requireRoom } from './size-limit.ts';
import { type RenderStep, WHITE_PAPER } from './step.ts';
import { gridOfTile, type TileFacts } from './tile-grid.ts';
import { checkResult } from './verdict.ts';

/** What both kinds of render write, and how. */
interface Output {
  readonly steps: readonly RenderStep[];
  readonly follow?: Follow;
  /** `finished` where absent. */
  readonly quality?: Quality;
  /** .png, .tif or .tiff */
  readonly out: string;
  readonly overwrite?: boolean;
  /** Files that it is made from besides the tile and the masks: the recipe, the plugins. None is replaced. */
  readonly sources?: readonly string[];
}

/** A recipe laid over an artwork tile. */
export interface LayRequest extends Output, Omit<TileFacts, 'fileDensity'> {
  readonly tile: string;
}

/** A texture alone. */
export interface MakeRequest extends Output {
  readonly layout: Layout;
  readonly size: Size;
  /** Pixels per mm. */
  readonly density: number;
  readonly fit?: boolean;
  /** `#rrggbb` that the layer is laid over. */
  readonly ground: string;
  /** `#rrggbb` of the bare paper or cloth; white where absent. */
  readonly paper?: string;
  /** Takes the paper away: what is left is transparent where the paper is bare. */
  readonly layer?: boolean;
}

export interface RenderProgress extends Omit<RenderOptions, 'onProgress'> {
  readonly onProgress?: (done: number, what: string) => void;
}

/** What was made. */
export interface RenderReport {
  readonly out: string;
  /** Of the picture that was written. */
  readonly grid: Grid;
  readonly quality: Quality;
  /** What was done besides, e.g. a tile unfolded or a size fitted. */
  readonly notes: readonly string[];
  /** What the user should look at. */
  readonly warnings: readonly string[];
  /** What the effects reported, step by step. */
  readonly reports: readonly (readonly Report[])[];
  /** The range of every plane painted, step by step, where `measure` asked for it. */
  readonly ranges: Rendered['ranges'];
  /** The seam check of the result. */
  readonly seams: SeamReport;
  readonly bytes: number;
  /** ms of each stage. */
  readonly timings: Readonly<Record<'read' | 'prepare' | 'paint' | 'write', number>>;
}

/**
 * Reads a tile, lays the steps over it and writes the result. A tile that does not close over its
 * layout is laid all the same, with a warning that says where it is open.
 *
 * @throws Fault of any kind; nothing is then written.
 */
export async function layTile(request: LayRequest, progress: RenderProgress = {}): Promise<RenderReport> {
  await refuseOutput(request, [request.tile]);
  const started = performance.now();
  progress.onProgress?.(0, 'reading');
  const picture = await readPicture(request.tile);
  const { grid, tile, notes } = gridOfTile(picture, { ...request, fileDensity: picture.pixelsPerMm });
  requireSize(grid.repeat, 'the size of the tile, which follows from its density', 'Give it with --size.');
  const before = checkSeams(tile, request.layout);
  const warnings = before.closes ? [] : [`the tile itself does not close: ${before.summary}`];
  const read = performance.now() - started;
  return renderAndWrite(
    { ...request, grid, frame: tile, notes: [...picture.notes, ...notes], warnings, read },
    progress,
  );
}

/** Makes a texture alone as a tile, over a ground of one colour, and writes it. */
export async function makeTile(request: MakeRequest, progress: RenderProgress = {}): Promise<RenderReport> {
  await refuseOutput(request);
  const repeat = { layout: request.layout, ...request.size };
  const grid = request.fit ? fitGrid(repeat, request.density) : gridAtDensity(repeat, request.density);
  requireRoom(grid);
  const frame = plainFrame(grid.tileWidth, grid.tileHeight, request.ground);
  const notes = [`over a ground of ${request.ground}`, ...(request.fit ? [fitNote(grid)] : [])];
  return renderAndWrite({ ...request, grid, frame, notes, warnings: [], read: 0 }, progress);
}

/** Whatever is wrong with the name is told before any work is done for it. */
async function refuseOutput(
  { out, overwrite, steps, sources = [] }: Output,
  tiles: string[] = [],
): Promise<void> {
  const masks = steps.flatMap(({ mask }) => mask?.picture ?? []);
  await refuseInputs(out, [...tiles, ...masks, ...sources]);
  await refuseOverwrite(out, overwrite);
}

interface RenderWork extends Output, Pick<MakeRequest, 'paper' | 'layer'> {
  readonly grid: Grid;
  readonly frame: Frame;
  readonly notes: readonly string[];
  readonly warnings: readonly string[];
  readonly read: number;
}

async function renderAndWrite(work: RenderWork, progress: RenderProgress): Promise<RenderReport> {
  const { steps, out, overwrite } = work;
  const rendered = await renderTile(
    { grid: work.grid, tile: work.frame, steps, follow: work.follow ?? 'cloth', quality: work.quality },
    { ...progress, onProgress: (done) => progress.onProgress?.(done, 'painting') },
  );
  const { frame, grid } = rendered;
  progress.onProgress?.(1, 'writing');
  const started = performance.now();
  const check = () => checkResult(frame, grid, work.frame, work.grid);
  // A layer is checked on its paper, which is how it will be seen; anything else while it is written.
  const seamsOfLayer = work.layer ? check() : undefined;
  if (work.layer) takeOffPaper(frame.pixels, parseHex(work.paper ?? WHITE_PAPER));
  const pixelsPerMm = { x: 1 / grid.mmPerPixelX, y: 1 / grid.mmPerPixelY };
  const bits = frame.pixels instanceof Uint16Array ? 16 : 8;
  const writing = writePicture(out, { ...frame, bits, pixelsPerMm }, { overwrite, signal: progress.signal });
  const [{ bytes }, seams] = await Promise.all([writing, seamsOfLayer ?? check()]);
  const { reports, ranges, timings } = rendered;
  return {
    out,
    grid,
    quality: work.quality ?? 'finished',
    notes: [...work.notes, ...unfoldNotes(work.grid, grid), ...sketchNotes(work)],
    warnings: work.warnings,
    reports,
    ranges,
    seams,
    bytes,
    timings: { read: work.read, ...timings, write: performance.now() - started },
  };
}

function fitNote(grid: Grid): string {
  return `fitted: ${formatSize(grid.repeat)} is ${grid.tileWidth} x ${grid.tileHeight} px at ${formatDensity(1 / grid.mmPerPixelX)}`;
}

function unfoldNotes(tile: Grid, result: Grid): string[] {
  if (!isReflected(tile.repeat.layout) || result === tile) return [];
  return [
    `the ${formatLayout(tile.repeat.layout)} tile was unfolded; the result stands straight, ${formatSize(result.repeat)}`,
  ];
}

function sketchNotes({ quality }: RenderWork): string[] {
  return quality === 'sketch' ? ['a sketch: simulated on a coarser grid, not for print'] : [];
}
