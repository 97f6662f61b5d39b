import { availableParallelism } from 'node:os';
import type { Frame } from '../colour/frame.ts';
import type { Quality, Report } from '../effect/effect.ts';
import { checkSeams, type SeamReport } from '../inspect/index.ts';
import { readPicture, refuseOverwrite } from '../picture/index.ts';
import { plainFrame } from '../render/frame.ts';
import { guessRender } from '../render/pace.ts';
import type { Follow, Rendered } from '../render/render.ts';
import { resampleTile } from '../render/resample.ts';
import { gridAtMost } from '../render/sketch-grid.ts';
import type { RenderStep } from '../render/step.ts';
import { gridOfTile, type TileFacts } from '../render/tile-grid.ts';
import { fitGrid, type Grid, gridAtDensity } from '../repeat/grid.ts';
import type { Layout } from '../repeat/layout.ts';
import { formatDensity, formatSize, type Size } from '../repeat/length.ts';
import { type ByHand, byHandPaths } from './by-hand.ts';
import { type LayTools, lay } from './lay.ts';

/** What both kinds of render write, and how. */
interface Output {
  readonly steps: readonly RenderStep[];
  readonly follow?: Follow;
  /** `finished` where absent. */
  readonly quality?: Quality;
  /** Pixels per mm at most; what is finer is drawn at this, of the same size in mm. */
  readonly densityLimit?: number;
  /** .png, .tif or .tiff */
  readonly out: string;
  readonly overwrite?: boolean;
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
  /** Writes the texture for laying by hand, over any artwork, in one to several pictures. */
  readonly byHand?: boolean;
}

export interface RenderProgress extends Omit<LayTools, 'onProgress' | 'onWriting'> {
  readonly onProgress?: (done: number, what: string) => void;
  /** Told before rendering begins how many seconds so many pixels are thought to take, from here on. */
  readonly onGuess?: (seconds: number, pixels: number) => void;
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
  /** The pictures for laying by hand, where these were asked for. */
  readonly byHand?: ByHand;
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
  await refuseOverwrite(request.out, request.overwrite);
  const started = performance.now();
  progress.onProgress?.(0, 'reading');
  const picture = await readPicture(request.tile);
  const own = gridOfTile(picture, { ...request, fileDensity: picture.pixelsPerMm });
  const grid = limitedGrid(own.grid, request);
  const tile = resampleTile(own.tile, grid);
  const notes = [...own.notes, ...limitNotes(own.grid, grid)];
  const before = checkSeams(tile, request.layout);
  const warnings = before.closes ? [] : [`the tile itself does not close: ${before.summary}`];
  const read = performance.now() - started;
  return layAndReport(
    { grid, frame: tile, notes: [...picture.notes, ...notes], warnings, read, ownGrid: own.grid },
    request,
    progress,
  );
}

/** Makes a texture alone as a tile, over a ground of one colour, and writes it. */
export async function makeTile(request: MakeRequest, progress: RenderProgress = {}): Promise<RenderReport> {
  for (const path of request.byHand ? byHandPaths(request.out) : [request.out])
    await refuseOverwrite(path, request.overwrite);
  const repeat = { layout: request.layout, ...request.size };
  const asked = request.fit ? fitGrid(repeat, request.density) : gridAtDensity(repeat, request.density);
  const grid = limitedGrid(asked, request);
  const frame = plainFrame(grid.tileWidth, grid.tileHeight, request.ground);
  const ground = request.byHand ? [] : [`over a ground of ${request.ground}`];
  const notes = [...ground, ...(request.fit ? [fitNote(grid)] : []), ...limitNotes(asked, grid)];
  return layAndReport({ grid, frame, notes, warnings: [], read: 0 }, request, progress, request.byHand);
}

/** What is laid over, and what is known of it already. */
interface Artwork {
  readonly frame: Frame;
  readonly grid: Grid;
  /** Of the artwork as its file has it, for mask pictures of that size. */
  readonly ownGrid?: Grid;
  readonly notes: readonly string[];
  readonly warnings: readonly string[];
  /** ms that reading took. */
  readonly read: number;
}

async function layAndReport(
  work: Artwork,
  request: Output,
  progress: RenderProgress,
  byHand?: boolean,
): Promise<RenderReport> {
  const { frame, grid, notes, warnings, read } = work;
  const { steps, follow = 'cloth', quality = 'finished', out, overwrite } = request;
  const { onProgress = () => {}, onGuess = () => {}, workers = availableParallelism() } = progress;
  const guess = guessRender({ grid, steps, follow, quality });
  onGuess(guess.prepare + guess.paint / workers + guess.finish, guess.pixels);
  const laid = await lay(
    { artwork: frame, grid, steps, follow, quality, out, overwrite, byHand },
    {
      ...progress,
      maskGrid: work.ownGrid,
      onProgress: (done) => onProgress(done, 'painting'),
      onWriting: () => onProgress(1, 'writing'),
    },
  );
  const { reports, ranges, seams, bytes, timings } = laid;
  return {
    out,
    grid: laid.grid,
    quality,
    notes: [...notes, ...laid.notes],
    warnings: [...warnings, ...(laid.byHand?.warnings ?? [])],
    byHand: laid.byHand,
    reports,
    ranges,
    seams,
    bytes,
    timings: { read, ...timings },
  };
}

function limitedGrid(grid: Grid, { densityLimit }: Output): Grid {
  return densityLimit === undefined ? grid : gridAtMost(grid, densityLimit);
}

function limitNotes(asked: Grid, grid: Grid): string[] {
  if (grid === asked) return [];
  return [
    `drawn at ${formatDensity(1 / grid.mmPerPixelX)} instead of ${formatDensity(1 / asked.mmPerPixelX)}, of the same size in mm`,
  ];
}

function fitNote(grid: Grid): string {
  return `fitted: ${formatSize(grid.repeat)} is ${grid.tileWidth} x ${grid.tileHeight} px at ${formatDensity(1 / grid.mmPerPixelX)}`;
}
