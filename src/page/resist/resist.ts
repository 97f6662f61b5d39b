import type { Grid } from '../../repeat/grid.ts';
import type { Resist, Stroke } from '../words/work.ts';
import { type DabLine, openCover, reachedOf } from './dab-line.ts';
import { requirePoints, requireStroke } from './stroke.ts';
import { asTilesSee } from './tile-copies.ts';

/** Pixels of the tile. */
export interface PixelRectangle {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A resist that is being painted. */
export interface OpenResist {
  /** 0..255, `tileWidth * tileHeight`, row by row; as painted so far. */
  readonly samples: Uint8Array;
  /** Paints a stroke over those before it. @returns What of the tile it touched. */
  add(stroke: Stroke): PixelRectangle[];
  /** Paints on the last stroke, from where it was. @returns What of the tile that touched. */
  grow(points: readonly number[]): PixelRectangle[];
}

/**
 * A resist as grey samples 0..255, one for each pixel of ONE tile. Strokes go over every seam, and onto a reflected
 * copy as its reflection. Along a stroke the most counts, so that it has no beads where it meets itself; strokes
 * add by the most too, and one that erases leaves what it does not cover.
 *
 * @throws Fault (input) for a stroke that nobody can have made.
 */
export function resistSamples({ strokes }: Resist, grid: Grid): Uint8Array {
  const open = openResist(grid);
  for (const stroke of strokes) open.add(stroke);
  return open.samples;
}

/**
 * Opens a resist to be painted. A stroke that is grown bit by bit comes to the same bytes as one that is added whole.
 *
 * @param samples To be painted on; none painted yet where absent.
 */
export function openResist(
  grid: Grid,
  samples: Uint8Array = new Uint8Array(grid.tileWidth * grid.tileHeight),
): OpenResist {
  const adding = new Adding(samples);
  const erasing = new Erasing(samples);
  let stroke: Stroke | undefined;
  let last: readonly number[] = [];
  const paint = (points: readonly number[]): PixelRectangle[] => {
    const touched: PixelRectangle[] = [];
    if (!stroke) return touched;
    if (stroke.erases) erasing.begin();
    for (let at = 0; at < points.length; at += 3) {
      const next = [points[at], points[at + 1], points[at + 2]];
      paintLine(grid, lineOf(stroke, last, next), stroke.erases ? erasing : adding, touched);
      last = next;
    }
    if (stroke.erases) erasing.remember(touched);
    return touched;
  };
  return {
    samples,
    add(next) {
      requireStroke(next);
      erasing.end(grid.tileWidth);
      stroke = next;
      last = [];
      return paint(next.points);
    },
    grow(points) {
      requirePoints(points);
      return paint(points);
    },
  };
}

/** Lays cover on pixels. */
interface Layer {
  /** @param cover 1..255 */
  lay(pixel: number, cover: number): void;
  /** Covers wholly. @param end The pixel after the last. */
  layWholly(first: number, end: number): void;
}

class Adding implements Layer {
  readonly #samples: Uint8Array;

  constructor(samples: Uint8Array) {
    this.#samples = samples;
  }

  lay(pixel: number, cover: number): void {
    if (cover > this.#samples[pixel]) this.#samples[pixel] = cover;
  }

  layWholly(first: number, end: number): void {
    this.#samples.fill(255, first, end);
  }
}

/** Knows what lay under a stroke that erases, as long as it is under way: its own cover is the most along it. */
class Erasing implements Layer {
  readonly #samples: Uint8Array;
  /** Only pages that are touched take memory. */
  #cover = new Uint8Array(0);
  #before = new Uint8Array(0);
  readonly #touched: PixelRectangle[] = [];

  constructor(samples: Uint8Array) {
    this.#samples = samples;
  }

  begin(): void {
    if (this.#cover.length > 0) return;
    this.#cover = new Uint8Array(this.#samples.length);
    this.#before = new Uint8Array(this.#samples.length);
  }

  lay(pixel: number, cover: number): void {
    const known = this.#cover[pixel];
    if (cover <= known) return;
    if (known === 0) this.#before[pixel] = this.#samples[pixel];
    this.#cover[pixel] = cover;
    this.#samples[pixel] = Math.round((this.#before[pixel] * (255 - cover)) / 255);
  }

  /** What was there before is not needed again: nothing covers more. */
  layWholly(first: number, end: number): void {
    this.#cover.fill(255, first, end);
    this.#samples.fill(0, first, end);
  }

  remember(touched: readonly PixelRectangle[]): void {
    for (const rectangle of touched) this.#touched.push(rectangle);
  }

  /** The stroke has ended. */
  end(tileWidth: number): void {
    for (const { left, top, width, height } of this.#touched) {
      for (let row = top; row < top + height; row++) {
        const first = row * tileWidth + left;
        this.#cover.fill(0, first, first + width);
      }
    }
    this.#touched.length = 0;
  }
}

/** @param last None before the first point, which is a dab alone. */
function lineOf({ width, softness }: Stroke, last: readonly number[], to: readonly number[]): DabLine {
  const from = last.length > 0 ? last : to;
  return {
    x0: from[0],
    y0: from[1],
    radius0: (width / 2) * from[2],
    x1: to[0],
    y1: to[1],
    radius1: (width / 2) * to[2],
    softness,
    goesOn: last.length > 0,
  };
}

function paintLine(grid: Grid, line: DabLine, layer: Layer, touched: PixelRectangle[]): void {
  const pixel = (grid.mmPerPixelX + grid.mmPerPixelY) / 2;
  const { width, height } = grid.box;
  // Some copy of every dab comes as near as half the box's diagonal, and a further one never covers more.
  const nearest = Math.sqrt(width * width + height * height) / 2 + pixel;
  const reach = Math.min(Math.max(line.radius0, line.radius1) + pixel / 2, nearest);
  asTilesSee(grid, line, reach, (seen) => {
    const rectangle = paintOnTile(grid, seen, reach, pixel, layer);
    if (rectangle) touched.push(rectangle);
  });
}

function paintOnTile(
  grid: Grid,
  line: DabLine,
  reach: number,
  pixel: number,
  layer: Layer,
): PixelRectangle | undefined {
  const { tileWidth, mmPerPixelX, mmPerPixelY } = grid;
  const [firstRow, endRow] = pixelsFrom(
    Math.min(line.y0, line.y1) - reach,
    Math.max(line.y0, line.y1) + reach,
    mmPerPixelY,
    grid.tileHeight,
  );
  const cover = openCover(line, pixel);
  let [left, right, top, bottom] = [tileWidth, 0, endRow, firstRow];
  for (let row = firstRow; row < endRow; row++) {
    const y = (row + 0.5) * mmPerPixelY;
    const reached = reachedOf(line, reach, y);
    if (!reached) continue;
    const [first, end] = pixelsFrom(reached[0], reached[1], mmPerPixelX, tileWidth);
    if (first >= end) continue;
    paintRow(first, end, (column) => byteOf(cover((column + 0.5) * mmPerPixelX, y)), row * tileWidth, layer);
    [left, right] = [Math.min(left, first), Math.max(right, end)];
    [top, bottom] = [Math.min(top, row), row + 1];
  }
  return left < right ? { left, top, width: right - left, height: bottom - top } : undefined;
}

/** Those of `count` pixels whose middles lie between two places, mm: the first, and the one after the last. */
function pixelsFrom(from: number, to: number, mmPerPixel: number, count: number): [number, number] {
  return [
    Math.max(0, Math.ceil(from / mmPerPixel - 0.5)),
    Math.min(count, Math.floor(to / mmPerPixel - 0.5) + 1),
  ];
}

/** From both ends inwards; between two pixels of a row that are wholly covered all are. */
function paintRow(
  first: number,
  end: number,
  coverAt: (column: number) => number,
  rowStart: number,
  layer: Layer,
): void {
  let from = first;
  for (; from < end; from++) {
    const cover = coverAt(from);
    if (cover > 0) layer.lay(rowStart + from, cover);
    if (cover === 255) break;
  }
  let to = end - 1;
  for (; to > from; to--) {
    const cover = coverAt(to);
    if (cover > 0) layer.lay(rowStart + to, cover);
    if (cover === 255) break;
  }
  if (from + 1 < to) layer.layWholly(rowStart + from + 1, rowStart + to);
}

function byteOf(share: number): number {
  return (255 * share + 0.5) | 0;
}
