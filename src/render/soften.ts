import { sharedSamples } from '../colour/frame.ts';
import { type SoftLevel, type SoftSource, softenRows } from '../composite/index.ts';
import { PLANE_LIMITS } from '../effect/plane-limits.ts';
import { coarserGrid, type Grid } from '../repeat/grid.ts';
import type { Allot } from './frame.ts';
import type { PassOrder, SoftenOrder, SoftPicture } from './orders.ts';
import { pictureGrid } from './pass-pictures.ts';
import { bandRowsFor, openSpace, type Space, sizeOf } from './space.ts';

/** Paint that has run further than this counts as this far, mm: beyond it no motif is left to see. */
const MOST_BLEED_MM = PLANE_LIMITS.bleed.most;
/** A tile of fewer cells is next to one colour. */
const FEWEST_CELLS = 4;

/**
 * The softer and softer levels that bleeding reads, still empty: each on cells twice as wide as the
 * one before, until their spread is the most that paint runs, or the tile is a handful of cells.
 */
export function planStack(grid: Grid, space: Space, allot?: Allot): SoftPicture[] {
  const stack: SoftPicture[] = [];
  const finest = Math.min(grid.mmPerPixelX, grid.mmPerPixelY);
  for (let factor = 2; (factor / 2) * finest < MOST_BLEED_MM; factor *= 2) {
    const coarser = coarserGrid(grid, factor);
    if (factor > 2 && Math.min(coarser.tileWidth, coarser.tileHeight) < FEWEST_CELLS) break;
    const { width, height } = sizeOf(coarser, space);
    const length = 4 * width * height;
    const samples = (allot?.(NO_SHORTS, length) ?? sharedSamples(length, 16)) as Uint16Array;
    stack.push({ grid: coarser, samples });
  }
  return stack;
}

const NO_SHORTS = new Uint16Array(0);

/** Bytes of such a stack over a frame: a quarter of its pixels, and a quarter of that, in 8 bytes each. */
export function stackBytes(framePixels: number): number {
  return (framePixels / 3) * 8;
}

/** What the threads have to do before a pass whose paint runs, one order after the other. */
export function softenOrders(pass: PassOrder): SoftenOrder[] {
  if (pass.isSoftened) return [];
  return (pass.stack ?? []).map((to, index) => {
    const from =
      index > 0 ? pass.stack![index - 1] : { grid: pictureGrid(pass, 'source'), samples: pass.source };
    const { width, height } = sizeOf(to.grid, pass.frame);
    return {
      kind: 'soften',
      frame: pass.frame,
      level: index,
      from,
      to,
      bandRows: bandRowsFor(width, height),
      nextBand: new Int32Array(new SharedArrayBuffer(4)),
    };
  });
}

/** Takes bands of a level until none is left. */
export function runSoften(order: SoftenOrder, isStopped: () => boolean): void {
  const { frame, level, bandRows } = order;
  const from: SoftSource = {
    kind: level === 0 ? 'artwork' : 'level',
    pixels: order.from.samples,
    ...openSpace(order.from.grid, frame),
  };
  const to = openLevel(order.to, frame);
  while (!isStopped()) {
    const first = Atomics.add(order.nextBand, 0, 1) * bandRows;
    if (first >= to.height) break;
    softenRows(from, to, first, Math.min(bandRows, to.height - first));
  }
}

/** A level as the compositor reads it. */
export function openLevel({ grid, samples }: SoftPicture, frame: Space): SoftLevel {
  return { samples: samples as Uint16Array, ...openSpace(grid, frame) };
}
