import { modulo } from '../repeat/lattice.ts';
import { overlapCost } from './best-overlap.ts';
import type { Strip } from './canvas.ts';
import { coarser, coloursOf, columnsOf, type StripColours } from './strip-colours.ts';

/** From where a piece is taken that an end grows by. */
export interface Growth {
  /** Its first column (row). */
  readonly first: number;
  /** How far it is moved along, px. */
  readonly shift: number;
}

export interface GrowthSearch {
  /** The whole picture, as a strip. */
  readonly whole: Strip;
  /** What its last columns will lie over, as long as the first: the beginning of the next copy. */
  readonly next: Strip;
  /** px that are wanted; the piece has twice as many, half of them over the end. */
  readonly count: number;
  /** True where the picture goes on round along, so that a piece may be moved along. */
  readonly isRound: boolean;
}

/** Cells of half a piece in the search. */
const COARSE_WIDTH = 8;
/** Cells between the places that are tried. */
const STEP = 2;
/** Places along that a piece is tried at, where it may be moved. */
const PLACES_ALONG = 4;

/** The piece of a picture that goes best between its end and the beginning of the next copy. */
export function bestGrowth({ whole, next, count, isRound }: GrowthSearch): Growth {
  const factor = Math.max(1, Math.floor(count / COARSE_WIDTH));
  const spare = whole.across % factor;
  const colours = coloursOf(whole);
  const cells = coarser(columnsOf(colours, spare, whole.across - spare), factor);
  const beginning = coarser(coloursOf(next), factor);
  const half = Math.max(2, Math.floor(count / factor));
  const end = columnsOf(cells, cells.across - half, half);
  let best = { first: 0, shift: 0, cost: Number.POSITIVE_INFINITY };
  const places = isRound ? PLACES_ALONG : 1;
  for (let first = half; first + 3 * half <= cells.across; first += STEP) {
    const piece = columnsOf(cells, first, 2 * half);
    for (let place = 0; place < places; place++) {
      const moved = Math.round((place * cells.along) / places);
      const turned = rolled(piece, moved);
      const cost =
        overlapCost(end, columnsOf(turned, 0, half)) +
        overlapCost(columnsOf(turned, half, half), columnsOf(beginning, 0, half));
      if (cost < best.cost) best = { first: spare + first * factor, shift: moved * factor, cost };
    }
  }
  return { first: best.first, shift: best.shift };
}

function rolled({ across, along, values }: StripColours, by: number): StripColours {
  if (by === 0) return { across, along, values };
  const moved = new Float32Array(values.length);
  const start = 4 * across * modulo(by, along);
  moved.set(values.subarray(start));
  moved.set(values.subarray(0, start), values.length - start);
  return { across, along, values: moved };
}
