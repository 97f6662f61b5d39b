import type { Frame } from '../colour/frame.ts';
import { cancelled } from '../effect/setting.ts';
import { Fault } from '../fault.ts';
import { repeatSheet, type SeamReport } from '../inspect/index.ts';
import {
  type CloseChange,
  type ClosedPicture,
  type ClosePlan,
  drawCut,
  LEAST_STRIP,
  type LitPicture,
  refuseMirrors,
  type SlowLight,
} from '../join/index.ts';
import {
  type Picture,
  readPicture,
  refuseInputs,
  refuseOverwrite,
  refuseTwins,
  writePictures,
} from '../picture/index.ts';
import { doubtSize } from '../render/doubt-size.ts';
import { type SizeSource, sizeOfTile, type TileSize } from '../render/tile-grid.ts';
import { gridOfPixels, pixelStep } from '../repeat/grid.ts';
import { type Layout, STRAIGHT } from '../repeat/layout.ts';
import { requireSize, type Size } from '../repeat/length.ts';
import { openSeamEyes, type SeamEyes } from './seam-eyes.ts';
import { Hands } from './threads/hands.ts';

/** How wide a strip may be. */
export type StripWidth = { readonly mm: number } | { readonly px: number };

export interface CloseRequest {
  readonly picture: string;
  readonly layout: Layout;
  /** mm of the picture, as the user says. */
  readonly size?: Size;
  /** Pixels per mm, as the user says. */
  readonly density?: number;
  /** No strip that is worked on is wider; an eighth of the shorter side, at most 25 mm (300 px), where absent. */
  readonly within?: StripWidth;
  /** Grow what the overlap takes from the picture itself. */
  readonly keepSize?: boolean;
  /** Divide the slow light of the scan out of the whole picture first. */
  readonly evenLight?: boolean;
  /** .png, .tif or .tiff; .jpg for a proof. */
  readonly out: string;
  /** Where to draw what was worked on. */
  readonly show?: string;
  readonly overwrite?: boolean;
}

/** What closing will come to, before it is done. */
export interface CloseFacts {
  /** px of the picture. */
  readonly picture: { readonly width: number; readonly height: number };
  /** mm of a pixel; none where nothing tells it. */
  readonly mmPerPixel?: { readonly x: number; readonly y: number };
  readonly sizeFrom?: SizeSource;
  /** None where it closes already and nothing is to be done. */
  readonly plan?: ClosePlan;
  readonly light: SlowLight;
}

export interface CloseProgress {
  readonly onFacts?: (facts: CloseFacts) => void;
  readonly onProgress?: (done: number, what: string) => void;
  readonly signal?: AbortSignal;
}

export interface CloseReport extends CloseFacts {
  readonly out: string;
  readonly show?: string;
  /** px of what was written. */
  readonly width: number;
  readonly height: number;
  /** What was closed; none where it closed already. */
  readonly closed?: Pick<ClosedPicture, 'from' | 'strips'>;
  readonly change?: CloseChange;
  readonly seams: SeamReport;
  readonly notes: readonly string[];
  readonly warnings: readonly string[];
  readonly bytes: number;
  /** ms of each stage. */
  readonly timings: Readonly<Record<'read' | 'look' | 'close' | 'write', number>>;
}

/**
 * Reads a picture, makes it close over its layout and writes it. One that closes already is written as it is, its
 * very samples.
 *
 * @throws Fault of any kind; nothing is then written.
 */
export async function closeFile(request: CloseRequest, progress: CloseProgress = {}): Promise<CloseReport> {
  refuseMirrors(request.layout);
  const { out, show, signal } = { ...request, ...progress };
  const outs = [out, ...(show === undefined ? [] : [show])];
  await refuseTwins(outs);
  for (const path of outs) {
    await refuseInputs(path, [request.picture]);
    await refuseOverwrite(path, request.overwrite);
  }
  const hands = new Hands(2);
  const eyes = openSeamEyes();
  const looks: Promise<unknown>[] = [];
  const check: SeamEyes['check'] = (...asked) => {
    const look = eyes.check(...asked);
    looks.push(look);
    return look;
  };
  try {
    return await untilAborted(signal, closeWith({ hands, check }, request, progress));
  } finally {
    await hands.giveUp();
    await Promise.allSettled(looks);
    await eyes.close();
  }
}

interface Tools {
  readonly hands: Hands;
  readonly check: SeamEyes['check'];
}

async function closeWith(
  { hands, check }: Tools,
  request: CloseRequest,
  { onFacts = () => {}, onProgress = () => {}, signal }: CloseProgress,
): Promise<CloseReport> {
  const { layout, evenLight = false, keepSize, out, show, overwrite } = request;
  const watch = stopwatch();
  onProgress(0, 'reading');
  const picture = await readPicture(request.picture);
  const sized = sizeOf(picture, request);
  const mmPerPixel = sized && { x: sized.size.width / picture.width, y: sized.size.height / picture.height };
  const read = watch();
  onProgress(0.1, 'looking');
  const scan = litOf(picture, mmPerPixel);
  const order = { layout, within: stripOf(request, picture, mmPerPixel), keepSize };
  const lighting = hands.ask({ kind: 'light', picture: scan, divides: evenLight });
  const lit = evenLight ? { ...scan, samples: (await lighting).samples } : scan;
  // Planned while it is looked at: few pictures that are to be closed close already.
  const planning = hands.ask({ kind: 'plan close', picture: lit, order });
  const looked = seamsBefore(check, lit, layout);
  await Promise.allSettled([lighting, planning, looked]);
  const [{ light }, before] = await Promise.all([lighting, looked]);
  const plan = before ? undefined : await planning;
  const facts = {
    picture: { width: picture.width, height: picture.height },
    mmPerPixel,
    sizeFrom: sized?.from,
    light,
  };
  onFacts({ ...facts, plan });
  const look = watch();
  onProgress(0.3, 'closing');
  const closed = plan && (await hands.ask({ kind: 'close', picture: lit, plan }));
  const change = closed && (await hands.ask({ kind: 'change', picture: lit, closed }));
  const close = watch();
  onProgress(0.7, 'writing');
  const tile = closed ?? { ...facts.picture, samples: lit.samples };
  const pixelsPerMm = mmPerPixel && { x: 1 / mmPerPixel.x, y: 1 / mmPerPixel.y };
  const frame = { pixels: tile.samples, width: tile.width, height: tile.height };
  const shown = closed && show !== undefined ? [{ path: show, picture: cutSheet(frame, closed) }] : [];
  const writing = writePictures([{ path: out, picture: { ...frame, pixelsPerMm } }, ...shown], {
    overwrite,
    signal,
  });
  const looking = before ?? check(frame, layout, mmOf(mmPerPixel));
  // Both are waited for even where one fails: the pixels must not be given up under the other's hands.
  await Promise.allSettled([writing, looking]);
  const [written, seams] = await Promise.all([writing, looking]);
  return {
    ...facts,
    ...{ out, plan, change, seams },
    show: shown.length > 0 ? show : undefined,
    ...{ width: tile.width, height: tile.height },
    closed: closed && { from: closed.from, strips: closed.strips },
    notes: picture.notes,
    warnings: warningsOf(sized, picture, request),
    bytes: written.reduce((sum, { bytes }) => sum + bytes, 0),
    timings: { read, look, close, write: watch() },
  };
}

function stopwatch(): () => number {
  let since = performance.now();
  return () => {
    const passed = performance.now() - since;
    since = performance.now();
    return passed;
  };
}

/** Gives up waiting at once; the threads are then ended. */
async function untilAborted<T>(signal: AbortSignal | undefined, work: Promise<T>): Promise<T> {
  if (!signal) return work;
  // Nobody waits for what was given up; its failure is ours.
  work.catch(() => {});
  const aborted = new Promise<never>((_, reject) => {
    const stop = () => reject(cancelled());
    if (signal.aborted) stop();
    else signal.addEventListener('abort', stop, { once: true });
  });
  return Promise.race([work, aborted]);
}

function sizeOf(picture: Picture, { size, density }: CloseRequest): TileSize | undefined {
  const sized = sizeOfTile(picture, { size, density, fileDensity: picture.pixelsPerMm });
  if (!sized) return undefined;
  requireSize(sized.size, 'the size of the picture, which follows from its density', 'Give it with --size.');
  gridOfPixels({ layout: STRAIGHT, ...sized.size }, picture.width, picture.height);
  return sized;
}

/** Without a size a pixel counts as a mm: only shares of the whole matter then. */
function litOf({ width, height, pixels }: Picture, mmPerPixel = { x: 1, y: 1 }): LitPicture {
  return { width, height, samples: pixels, mmPerPixelX: mmPerPixel.x, mmPerPixelY: mmPerPixel.y };
}

function mmOf(mmPerPixel: CloseFacts['mmPerPixel']) {
  return { mmPerPixelX: mmPerPixel?.x, mmPerPixelY: mmPerPixel?.y };
}

/** A tile drawn small, with what was worked on. */
function cutSheet(tile: Frame, closed: ClosedPicture): Frame {
  const sheet = repeatSheet(tile, STRAIGHT, { columns: 1, rows: 1, maxSide: SHOWN_SIDE });
  drawCut(sheet, closed);
  return sheet;
}

/** px. */
const SHOWN_SIDE = 1600;

/** What the seam check says of a picture that closes as it is; nothing of any other. */
async function seamsBefore(
  check: SeamEyes['check'],
  { width, height, samples }: LitPicture,
  layout: Layout,
): Promise<SeamReport | undefined> {
  const step = pixelStep(layout);
  if (width % step.across > 0 || height % step.down > 0) return undefined;
  const seams = await check({ pixels: samples, width, height }, layout);
  return seams.grade === 'closes' && seams.edges.every(({ judged }) => judged) ? seams : undefined;
}

/** Of the shorter side. */
const USUAL_SHARE = 1 / 8;
const USUAL_MOST = { mm: 25, px: 300 } as const;

function stripOf(
  { within }: CloseRequest,
  { width, height }: Picture,
  mmPerPixel: CloseFacts['mmPerPixel'],
): { x: number; y: number } {
  const shorter = Math.min(width, height);
  if (within && 'px' in within) return { x: Math.round(within.px), y: Math.round(within.px) };
  if (within) {
    if (!mmPerPixel) throw sizeMissing(within.mm);
    return { x: Math.round(within.mm / mmPerPixel.x), y: Math.round(within.mm / mmPerPixel.y) };
  }
  const most = mmPerPixel ? USUAL_MOST.mm / mmPerPixel.x : USUAL_MOST.px;
  const usual = Math.max(LEAST_STRIP, Math.floor(Math.min(most, shorter * USUAL_SHARE)));
  return { x: usual, y: usual };
}

function sizeMissing(mm: number): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'the size of the picture',
    subject: '--within in mm',
    received: `${mm} mm, and the picture states no density`,
    saying: 'How many pixels the strip of --within is cannot be told: the picture states no density.',
    remedy: 'Add for example --size 320x320mm or --dpi 300, or give the strip in pixels: --within 140px.',
  });
}

function warningsOf(sized: TileSize | undefined, { width }: Picture, { within }: CloseRequest): string[] {
  const doubt = sized && within && 'mm' in within ? doubtSize(sized, width) : undefined;
  return doubt === undefined ? [] : [`${doubt}. Give --size or --dpi`];
}
