import type { Axis } from './seam.ts';
import type { Source } from './strip.ts';

/** Lines looked at inside at most, spread evenly; and lines more that stand out in a quick look. */
const MOST_LINES = 160;
/** Long lines show more each: fewer are read, so that a tile of 57 megapixels is judged in about a second. */
const LINE_SAMPLES = 400_000;
const FEWEST_LINES = 32;
/** px of a side from which the coarse cells are looked at along the fewest lines too. */
const LARGE = 4096;
const MOST_CELL_LINES = 40;
const STANDING_OUT = 12;
/** In cells, of each order. */
const CELLS_STANDING_OUT = 6;
const QUIETEST = 8;
/** The quick look takes so many places of each line, in so many stretches. */
const QUICK_PLACES = 512;
const QUICK_STRETCHES = 8;

/**
 * Which lines inside a picture a seam is held against: lines spread evenly, half of them on the
 * 8 px grid of JPEG, and those that a quick look finds to have the largest differences over all or
 * over a stretch, and the smallest. So a stripe's border is known even where lines are few.
 *
 * @param depth  Columns (rows) of the picture.
 * @param margin Columns (rows) that must lie on each side of a line.
 * @param looked What the quick look found.
 */
export function linesInside(
  source: Source,
  axis: Axis,
  depth: number,
  margin: number,
  looked: QuickLook,
): number[] {
  const [first, last] = [margin, depth - margin];
  const chosen = new Set<number>();
  const length = axis === 'column' ? source.height : source.width;
  const count = Math.min(
    MOST_LINES,
    Math.max(FEWEST_LINES, Math.round(LINE_SAMPLES / length)),
    last - first + 1,
  );
  for (let k = 0; k < count; k++) {
    const even = Math.round(first + ((last - first) * k) / Math.max(1, count - 1));
    const gridded = Math.round(even / 8) * 8;
    const onGrid = count < last - first + 1 && k % 2 === 1 && gridded >= first && gridded <= last;
    chosen.add(onGrid ? gridded : even);
  }
  if (count < last - first + 1) {
    for (const position of standingOut(looked, first, last)) chosen.add(position);
  }
  return [...chosen].sort((a, b) => a - b);
}

/** Lines for cells of `scale` px, half a cell apart where there is room. */
export function cellLinesInside(depth: number, margin: number, scale: number): number[] {
  const most = depth > LARGE ? FEWEST_LINES : MOST_CELL_LINES;
  const pace = Math.max(scale >> 1, Math.ceil((depth - 2 * margin) / most / 8) * 8);
  const lines: number[] = [];
  for (let at = Math.ceil(margin / pace) * pace; at <= depth - margin; at += pace) lines.push(at);
  return lines;
}

/**
 * Lines that stand out in cells of `scale` px: the border of a stripe lies on few lines, where those that are
 * spread evenly hardly meet it, and a seam may be one of them.
 */
export function cellLinesStandingOut(
  { overall, stretch }: QuickLook,
  depth: number,
  margin: number,
  scale: number,
): number[] {
  const within = (position: number) => position >= margin && position <= depth - margin;
  const lines = [overall, stretch].flatMap((order) =>
    apart(order.filter(within), scale >> 1, CELLS_STANDING_OUT),
  );
  return [...new Set(lines)];
}

/** The first of an order that lie at least so far from those before them. */
function apart(order: readonly number[], distance: number, most: number): number[] {
  const chosen: number[] = [];
  for (const position of order) {
    if (chosen.length === most) break;
    if (chosen.every((other) => Math.abs(other - position) >= distance)) chosen.push(position);
  }
  return chosen;
}

function standingOut({ overall, stretch }: QuickLook, first: number, last: number): number[] {
  const within = (position: number) => position >= first && position <= last;
  const [whole, parts] = [overall.filter(within), stretch.filter(within)];
  return [...whole.slice(0, STANDING_OUT), ...parts.slice(0, STANDING_OUT), ...whole.slice(-QUIETEST)];
}

/** Lines inside a picture in the order of how much neighbours differ over them, the most first. */
export interface QuickLook {
  /** Over the whole line. */
  readonly overall: readonly number[];
  /** Over the stretch where they differ most. */
  readonly stretch: readonly number[];
}

/** Takes a quick look at every line inside, in raw samples. */
export function lookQuickly(source: Source, axis: Axis): QuickLook {
  const depth = axis === 'column' ? source.width : source.height;
  const { overall, stretch } = differencesOver(source, axis, 1, depth - 1);
  const orderOf = (sums: Float64Array) =>
    Array.from(sums, (_, k) => k + 1).sort((a, b) => sums[b - 1] - sums[a - 1] || a - b);
  return { overall: orderOf(overall), stretch: orderOf(stretch) };
}

/** Sums of differences over each line, and the largest over a stretch, in raw samples. */
function differencesOver({ pixels, width, height }: Source, axis: Axis, first: number, last: number) {
  const lines = last - first + 1;
  const overall = new Float64Array(lines);
  const stretch = new Float64Array(lines);
  const [across, along, length] = axis === 'column' ? [4, width * 4, height] : [width * 4, 4, width];
  const places = Math.min(length, QUICK_PLACES);
  const startOf = (place: number) => Math.floor(((place + 0.5) * length) / places) * along;
  const perStretch = Math.ceil(places / QUICK_STRETCHES);
  for (let from = 0; from < places; from += perStretch) {
    const starts = Array.from({ length: Math.min(perStretch, places - from) }, (_, k) => startOf(from + k));
    const part = new Float64Array(lines);
    const add = axis === 'column' ? addByPlaces : addByLines;
    add(pixels, starts, first * across, across, part);
    for (let line = 0; line < lines; line++) {
      overall[line] += part[line];
      if (part[line] > stretch[line]) stretch[line] = part[line];
    }
  }
  return { overall, stretch };
}

/**
 * Adds to each line what its neighbours differ by at some places.
 *
 * @param starts Where each place begins, in samples.
 * @param offset Samples from there to the first line; `across` from line to line.
 */
type AddDifferences = (
  pixels: Source['pixels'],
  starts: readonly number[],
  offset: number,
  across: number,
  part: Float64Array,
) => void;

/** Lines between columns: the pixels of a place lie side by side. */
const addByPlaces: AddDifferences = (pixels, starts, offset, across, part) => {
  for (const start of starts) {
    for (let line = 0, at = start + offset; line < part.length; line++, at += across)
      part[line] += differenceAt(pixels, at, across);
  }
};

/** Lines between rows: those of a line do. */
const addByLines: AddDifferences = (pixels, starts, offset, across, part) => {
  for (let line = 0, from = offset; line < part.length; line++, from += across) {
    let sum = 0;
    for (let k = 0; k < starts.length; k++) sum += differenceAt(pixels, starts[k] + from, across);
    part[line] = sum;
  }
};

function differenceAt(pixels: Source['pixels'], at: number, across: number): number {
  return (
    Math.abs(pixels[at] - pixels[at - across]) +
    2 * Math.abs(pixels[at + 1] - pixels[at + 1 - across]) +
    Math.abs(pixels[at + 2] - pixels[at + 2 - across])
  );
}
