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
 */
export function linesInside(source: Source, axis: Axis, depth: number, margin: number): number[] {
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
    for (const position of standingOut(source, axis, first, last)) chosen.add(position);
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

function standingOut(source: Source, axis: Axis, first: number, last: number): number[] {
  const { overall, stretch } = quickLook(source, axis, first, last);
  const order = Array.from(overall, (_, k) => k).sort((a, b) => overall[b] - overall[a]);
  const local = Array.from(stretch, (_, k) => k).sort((a, b) => stretch[b] - stretch[a]);
  return [...order.slice(0, STANDING_OUT), ...local.slice(0, STANDING_OUT), ...order.slice(-QUIETEST)].map(
    (k) => first + k,
  );
}

/** Sums of differences over each line, and the largest over a stretch of it, in raw samples. */
function quickLook({ pixels, width, height }: Source, axis: Axis, first: number, last: number) {
  const lines = last - first + 1;
  const overall = new Float64Array(lines);
  const stretch = new Float64Array(lines);
  const part = new Float64Array(lines);
  const [across, along, length] = axis === 'column' ? [4, width * 4, height] : [width * 4, 4, width];
  const places = Math.min(length, QUICK_PLACES);
  const perStretch = Math.ceil(places / QUICK_STRETCHES);
  for (let k = 0; k < places; k++) {
    const start = Math.floor(((k + 0.5) * length) / places) * along + first * across;
    for (let line = 0, at = start; line < lines; line++, at += across) {
      part[line] +=
        Math.abs(pixels[at] - pixels[at - across]) +
        2 * Math.abs(pixels[at + 1] - pixels[at + 1 - across]) +
        Math.abs(pixels[at + 2] - pixels[at + 2 - across]);
    }
    if ((k + 1) % perStretch !== 0 && k + 1 < places) continue;
    for (let line = 0; line < lines; line++) {
      overall[line] += part[line];
      if (part[line] > stretch[line]) stretch[line] = part[line];
      part[line] = 0;
    }
  }
  return { overall, stretch };
}
