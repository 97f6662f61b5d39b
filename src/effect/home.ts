import type { Lattice } from '../repeat/lattice.ts';
import type { Band } from './effect.ts';

/**
 * The part of a band that lies in one copy of the box, counted from that copy's corner: in every copy the
 * same place has the same numbers, so what is worked out from them has the same bits in all of them.
 */
export interface HomePart {
  /**
   * The first pixel from the left, counted from the corner of the box; whole wherever the lattice is whole
   * in pixels.
   */
  readonly x: number;
  /** The first row of pixels, counted from the corner of the box. */
  readonly y: number;
  /** Pixels across. */
  readonly width: number;
  /** Pixels down. */
  readonly height: number;
  /**
   * Where its first pixel stands in the planes of the band: pixel (i, j) of the part is pixel
   * `at + j * band.width + i` of the layer.
   */
  readonly at: number;
}

/**
 * Cuts a band at the edges of the boxes it lies over and brings every part home. An effect that paints
 * part by part is handed coordinates inside the box and need not think of rounding: (x + 0.5) * mmPerPixelX
 * is the same number for all copies of a pixel.
 *
 * @param lattice In mm.
 * @returns Parts that cover the band, each pixel once.
 */
export function homeParts(band: Band, lattice: Lattice): HomePart[] {
  const ax = settle(lattice.ax / band.mmPerPixelX);
  const bx = settle(lattice.bx / band.mmPerPixelX);
  const ay = settle(lattice.ay / band.mmPerPixelY);
  const by = settle(lattice.by / band.mmPerPixelY);
  const parts: HomePart[] = [];
  const add = (across: Stretch, down: Stretch, offX: number, offY: number) => {
    parts.push({
      x: across.from - offX,
      y: down.from - offY,
      width: across.to - across.from,
      height: down.to - down.from,
      at: (down.from - band.y) * band.width + across.from - band.x,
    });
  };
  if (bx === 0) {
    for (const across of stretches(band.x, band.width, ax, 0)) {
      for (const down of stretches(band.y, band.height, by, across.copy * ay)) {
        add(across, down, across.copy * ax, across.copy * ay + down.copy * by);
      }
    }
    return parts;
  }
  for (const down of stretches(band.y, band.height, by, 0)) {
    for (const across of stretches(band.x, band.width, ax, down.copy * bx)) {
      add(across, down, down.copy * bx + across.copy * ax, down.copy * by);
    }
  }
  return parts;
}

/** Pixels `from` up to `to` of the plane, whose centres lie in copy `copy` of a period. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly copy: number;
}

function stretches(first: number, count: number, period: number, origin: number): Stretch[] {
  const found: Stretch[] = [];
  const startOf = (copy: number) => Math.ceil(copy * period + origin - 0.5);
  let copy = Math.floor((first + 0.5 - origin) / period);
  if (startOf(copy) > first) copy--;
  for (let from = first; from < first + count; copy++) {
    const to = Math.min(first + count, startOf(copy + 1));
    if (to <= from) continue;
    found.push({ from, to, copy });
    from = to;
  }
  return found;
}

/** A vector this near whole pixels is whole: the mm it came from were rounded. */
function settle(pixels: number): number {
  const whole = Math.round(pixels);
  return Math.abs(pixels - whole) < 1e-3 ? whole : pixels;
}

/** Pixels after which a row of noise starts afresh. */
const RUN = 256;

/** How long a row must be for `addInRuns` to fill it for `width` pixels. */
export function runLength(width: number): number {
  return width + 2 * RUN;
}

/**
 * Fills a row run by run. Rows of noise are carried on from point to point, so their last bits depend on
 * where they start; runs start at whole multiples of 256 pixels, wherever the band does.
 *
 * @param x   The first pixel that is wanted.
 * @param row Cleared and filled, a little more than is wanted; at least `runLength(width)` long.
 * @param add Adds `count` values from `offset` on, the first for pixel `pixel`.
 * @returns Where in `row` pixel `x` stands.
 */
export function addInRuns(
  x: number,
  width: number,
  row: Float32Array | Float64Array,
  add: (pixel: number, count: number, offset: number) => void,
): number {
  // Not whole where the lattice misses whole pixels.
  const whole = Math.floor(x);
  const first = Math.floor(whole / RUN) * RUN;
  const end = Math.ceil((whole + width) / RUN) * RUN;
  row.fill(0, 0, end - first);
  for (let pixel = first; pixel < end; pixel += RUN) add(pixel + (x - whole), RUN, pixel - first);
  return whole - first;
}

/** Pixels across a strip. */
export const STRIP = 1024;

/** A piece of a band, at most 1024 pixels wide, whose rows are all worked out from the same place on. */
export interface Strip {
  /** mm from the corner of the box to the centre of the first pixel that is worked out. */
  readonly x0: number;
  /** The first row, in pixels from the corner of the box. */
  readonly y: number;
  /** The first pixel wanted, counted from the first that is worked out. */
  readonly skip: number;
  /** How many pixels of a row are worked out in all, those skipped among them. */
  readonly count: number;
  /** Rows of pixels. */
  readonly height: number;
  /** Where the first wanted pixel stands in the band; a row further on it is `band.width` more. */
  readonly at: number;
}

/**
 * Cuts a band into parts of the box as `homeParts` does, and those at whole multiples of 1024 pixels: for
 * an effect whose rows of all kinds, noise and fields, are carried on from pixel to pixel. Every copy of
 * a pixel then has the same bits, wherever a band begins.
 *
 * @param lattice In mm.
 */
export function stripsOf(band: Band, lattice: Lattice): Strip[] {
  return homeParts(band, lattice).flatMap(({ x, y, width, height, at }) => {
    // Not whole where the lattice misses whole pixels.
    const whole = Math.floor(x);
    const strips: Strip[] = [];
    for (let pixel = Math.floor(whole / STRIP) * STRIP; pixel < whole + width; pixel += STRIP) {
      const skip = Math.max(0, whole - pixel);
      strips.push({
        x0: (pixel + (x - whole) + 0.5) * band.mmPerPixelX,
        y,
        skip,
        count: Math.min(STRIP, whole + width - pixel),
        height,
        at: at + pixel + skip - whole,
      });
    }
    return strips;
  });
}
