import { availableParallelism } from 'node:os';
import type { Frame } from '../colour/frame.ts';
import { DEFAULT_LIGHT, type Light } from '../composite/light.ts';
import type { Quality, Report } from '../effect/effect.ts';
import { Fault } from '../fault.ts';
import { closingHint, type Grade, type InspectedPicture, type SeamReport } from '../inspect/index.ts';
import { readPicture, refuseInputs, refuseOverwrite } from '../picture/index.ts';
import { doubtSize } from '../render/doubt-size.ts';
import type { Follow } from '../render/follow.ts';
import { plainFrame } from '../render/frame.ts';
import { heedsLight, isRaised } from '../render/light-words.ts';
import { guessRender } from '../render/pace.ts';
import type { Rendered } from '../render/render.ts';
import { resampleNotes, resampleTile } from '../render/resample.ts';
import { requireRoom } from '../render/size-limit.ts';
import { gridAtMost } from '../render/sketch-grid.ts';
import type { RenderStep } from '../render/step.ts';
import { gridOfTile, type SizeClues, type SizeSource, sizeOfTile } from '../render/tile-grid.ts';
import { checkResult } from '../render/verdict.ts';
import { fitGrid, type Grid, gridAtDensity } from '../repeat/grid.ts';
import type { Layout } from '../repeat/layout.ts';
import { formatDensity, formatSize, requireSize, type Size } from '../repeat/length.ts';
import { type ByHand, byHandPaths } from './by-hand.ts';
import type { InksInForce } from './ink/inks-in-force.ts';
import { misfitWarning, recolourFrame } from './ink/recolour-frame.ts';
import type { ScreenedFacts } from './ink/screen-picture.ts';
import type { Screens } from './ink/screens.ts';
import { type LayTools, lay } from './lay.ts';
import { picturePaths } from './parameter-pictures.ts';
import { openSeamEyes, type SeamEyes } from './seam-eyes.ts';

/** What both kinds of render write, and how. */
interface Output {
  readonly steps: readonly RenderStep[];
  readonly follow?: Follow;
  /** That raised surfaces stand in; as usual where absent. */
  readonly light?: Light;
  /** `finished` where absent. */
  readonly quality?: Quality;
  /** Pixels per mm at most; what is finer is drawn at this, of the same size in mm. */
  readonly densityLimit?: number;
  /** .png, .tif or .tiff; .jpg for a proof. */
  readonly out: string;
  readonly overwrite?: boolean;
  /** Files that it is made from besides the tile and the masks: the recipe, the plugins. None is replaced. */
  readonly sources?: readonly string[];
  /** That the result is made of counted inks, and how. */
  readonly screens?: Screens;
}

/** A recipe laid over an artwork tile. */
export interface LayRequest extends Output, Omit<SizeClues, 'fileDensity'> {
  readonly tile: string;
  readonly layout: Layout;
  /** Resample to the nearest pixels that fit the layout, instead of refusing. */
  readonly fit?: boolean;
  /** Pixels per mm of the result: the tile is resampled, and the texture keeps its scale in mm. */
  readonly at?: number;
  /** The card of the tile, and the colourway that it is recoloured to before anything is laid. */
  readonly inks?: InksInForce;
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
  /** Where the size of the tile came from. */
  readonly sizeFrom: SizeSource;
  /** That it was lit by, where a step is raised. */
  readonly light?: Light;
  readonly quality: Quality;
  /** What was done besides, e.g. a tile unfolded or a size fitted. */
  readonly notes: readonly string[];
  /** What the user should look at. */
  readonly warnings: readonly string[];
  /** What the effects reported, step by step. */
  readonly reports: readonly (readonly Report[])[];
  /** The range of every plane painted, step by step, where `measure` asked for it. */
  readonly ranges: Rendered['ranges'];
  /** The share of the tile that each step was laid on, 0..1; none for a step without a mask. */
  readonly laidOn: Rendered['laidOn'];
  /** The seam check of the result. */
  readonly seams: SeamReport;
  readonly bytes: number;
  /** The pictures for laying by hand, where these were asked for. */
  readonly byHand?: ByHand;
  /** Of a result of counted inks. */
  readonly screened?: ScreenedFacts;
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
  const { layout, fit, at, inks } = request;
  const sized = sizeOfTile(picture, { ...request, fileDensity: picture.pixelsPerMm }) ?? missingSize();
  const { width, height } = picture;
  requireSize(sized.size, 'the size of the tile, which follows from its density', 'Give it with --size.');
  const asked = gridOfTile({ layout, width, height, size: sized.size, fit }, at);
  const grid = limitedGrid(asked, request);
  const misfit = inks && misfitWarning(picture, inks);
  if (inks) await recolourFrame(picture, inks, progress);
  const tile = resampleTile(picture, grid);
  const notes = grid === asked ? resampleNotes(picture, grid, at !== undefined) : limitNotes(asked, grid);
  const doubt = doubtSize(sized, width);
  const warnings = [
    ...(doubt === undefined ? [] : [`${doubt}. Give --size or --dpi`]),
    ...(misfit === undefined ? [] : [misfit]),
  ];
  const eyes = openSeamEyes(width * height);
  // Looked at while it is laid over, where there is room for a copy; else while the effects prepare.
  const isShared = width * height <= MOST_COPIED;
  const looking = seamWarnings(eyes, { ...tile, isOpaque: picture.transparent ? undefined : true }, layout);
  // Whoever awaits it hears of a failure; until then it must not end the process.
  looking.catch(() => {});
  try {
    const whenFree = isShared ? undefined : looking;
    const read = performance.now() - started;
    const report = await layAndReport(
      {
        ...{ grid, frame: tile, isShared, sizeFrom: sized.from, read },
        notes: [...picture.notes, ...(inks ? inkNotes(inks) : []), ...notes],
      },
      request,
      { check: (order) => checkResult(order, eyes.check), ...progress, whenFree },
    );
    return { ...report, warnings: [...warnings, ...(await looking), ...report.warnings] };
  } finally {
    await Promise.allSettled([looking]);
    await eyes.close();
  }
}

function inkNotes({ card, colourway }: InksInForce): string[] {
  return [
    colourway
      ? `recoloured to the colourway "${colourway.name}" of the card "${card.name}"`
      : `names of inks stand for the colours of the card "${card.name}"`,
  ];
}

/** px. Up to 64 MB are spent so that the tile can be looked at meanwhile. */
const MOST_COPIED = 16e6;

/** Makes a texture alone as a tile, over a ground of one colour, and writes it. */
export async function makeTile(request: MakeRequest, progress: RenderProgress = {}): Promise<RenderReport> {
  await refuseOutput(request);
  const repeat = { layout: request.layout, ...request.size };
  const asked = request.fit ? fitGrid(repeat, request.density) : gridAtDensity(repeat, request.density);
  const grid = limitedGrid(asked, request);
  requireRoom(grid);
  const frame = plainFrame(grid.tileWidth, grid.tileHeight, request.ground);
  const ground = request.byHand ? [] : [`over a ground of ${request.ground}`];
  const notes = [...ground, ...(request.fit ? [fitNote(grid)] : []), ...limitNotes(asked, grid)];
  const eyes = openSeamEyes(grid.tileWidth * grid.tileHeight);
  try {
    return await layAndReport(
      { grid, frame, sizeFrom: 'given', notes, read: 0 },
      request,
      { check: (order) => checkResult(order, eyes.check), ...progress },
      request.byHand,
    );
  } finally {
    await eyes.close();
  }
}

/** Whatever is wrong with the name is told before any work is done for it. */
async function refuseOutput(
  { out, overwrite, steps, sources = [], byHand, screens }: Output & Pick<MakeRequest, 'byHand'>,
  tiles: string[] = [],
): Promise<void> {
  const masks = [...steps.flatMap(({ mask }) => mask?.picture ?? []), ...picturePaths(steps)];
  if (screens) masks.push(screens.wish.card);
  for (const path of byHand ? byHandPaths(out) : [out]) {
    await refuseInputs(path, [...tiles, ...masks, ...sources]);
    await refuseOverwrite(path, overwrite);
  }
}

const WARNINGS: Readonly<Record<Grade, readonly string[]>> = {
  closes: [],
  look: ['look at the tile itself'],
  open: ['the tile itself does not close'],
};

async function seamWarnings(eyes: SeamEyes, tile: InspectedPicture, layout: Layout): Promise<string[]> {
  const { grade, summary } = await eyes.check(tile, layout);
  const hint = grade === 'open' ? closingHint(await eyes.closing(tile)) : undefined;
  return WARNINGS[grade].map((words) => `${words}: ${summary}${hint === undefined ? '' : ` But ${hint}.`}`);
}

/** What is laid over, and what is known of it already. */
interface Artwork {
  readonly frame: Frame;
  /** True where its pixels are read by others as well while it is laid over. */
  readonly isShared?: boolean;
  readonly grid: Grid;
  readonly sizeFrom: SizeSource;
  readonly notes: readonly string[];
  /** ms that reading took. */
  readonly read: number;
}

async function layAndReport(
  work: Artwork,
  request: Output,
  progress: RenderProgress,
  byHand?: boolean,
): Promise<RenderReport> {
  const { frame, isShared, grid, sizeFrom, notes, read } = work;
  const { steps, light, follow = 'cloth', quality = 'finished', out, overwrite, screens } = request;
  const { onProgress = () => {}, onGuess = () => {}, workers = availableParallelism() } = progress;
  const guess = guessRender({ grid, steps, follow, quality });
  onGuess(guess.prepare + guess.paint / workers + guess.finish, guess.pixels);
  const laid = await lay(
    { artwork: frame, isShared, grid, steps, follow, light, quality, out, overwrite, byHand, screens },
    {
      ...progress,
      onProgress: (done) => onProgress(done, 'painting'),
      onWriting: () => onProgress(1, 'writing'),
    },
  );
  const { reports, ranges, laidOn, seams, bytes, timings } = laid;
  return {
    out,
    grid: laid.grid,
    sizeFrom,
    light: isRaised(steps) ? (light ?? DEFAULT_LIGHT) : heedsLight(steps) ? light : undefined,
    quality,
    notes: [...notes, ...laid.notes],
    warnings: [...idleLight(request), ...laid.warnings, ...(laid.byHand?.warnings ?? [])],
    byHand: laid.byHand,
    screened: laid.screened,
    reports,
    ranges,
    laidOn,
    seams,
    bytes,
    timings: { read, ...timings },
  };
}

function idleLight({ light, steps }: Output): string[] {
  if (!light || heedsLight(steps)) return [];
  const names = [...new Set(steps.map(({ effect }) => effect))].join(' and ');
  return [`the light changes nothing here: ${names} raises no surface that it could fall on`];
}

function missingSize(): never {
  throw new Fault({
    kind: 'usage',
    expected: 'the size of the repeat',
    subject: '--size',
    received: 'nothing, and the tile states no density',
    remedy: 'Add for example --size 640x640mm or --dpi 300.',
  });
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
