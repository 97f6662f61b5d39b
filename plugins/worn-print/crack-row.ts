import { covered } from './covered.ts';
import { FlakeFinder, type FlakePlace, type Flakes, wallHolds } from './flakes.ts';
import { UNTOUCHED } from './wear.ts';

export { FlakeFinder };

/** Rows that cracking reads, and `gone`, which it fills: the share of paint lost to cracks and flakes. */
export interface CrackedRow {
  readonly wear: Float32Array;
  readonly height: Float32Array;
  readonly bendS: Float32Array;
  readonly bendT: Float32Array;
  readonly gone: Float32Array;
}

/** Kept from call to call; always written before it is read. */
const place: FlakePlace = { distance: 0, own: 0, other: 0, first: 0, second: 0 };

/** Half of a crack at its widest, mm: so much, and so much per mm of flake. */
const LEAST_HALF = 0.05;
const HALF = 0.035;

/** A wall comes nearer by no more than so much per mm: bent ways are longer. */
const STEEPEST = 1.7;

export function crackRow(
  flakes: Flakes,
  finder: FlakeFinder,
  { wear, height, bendS, bendT, gone }: CrackedRow,
  x0: number,
  mm: number,
  y: number,
  count: number,
): void {
  const { cells, cracks, size } = flakes;
  const { sx, sy, tx, ty } = cells;
  const most = LEAST_HALF + HALF * size;
  const soft = 0.5 * Math.max(0.05, mm);
  const reach = 1.9 * most + soft;
  // Pixels that are still too far from any wall to be looked at.
  let farther = 0;
  for (let k = 0; k < count; k++) {
    const worn = wear[k];
    // Cracks open where the cloth was bent and handled, and here and there besides.
    const level = cracks * Math.max(0.5, Math.min(1.7, 1.35 + 0.3 * worn));
    const loose = 0.9 * (worn - UNTOUCHED) + 0.25 * height[k] - 2.3 + 3 * cracks;
    if (--farther >= 0) {
      gone[k] = lost(loose, place.own);
      continue;
    }
    const x = x0 + k * mm;
    finder.find(sx * x + sy * y + bendS[k], tx * x + ty * y + bendT[k], place);
    const { distance } = place;
    const own = lost(loose, place.own);
    const away = distance < soft ? 0.5 - distance / (2 * soft) : 0;
    const flaked = away > 0 ? own + (lost(loose, place.other) - own) * away : own;
    gone[k] = flaked;
    const half = most * (1 + 0.35 * height[k]);
    farther = Math.floor((distance - reach) / (STEEPEST * mm));
    if (distance > half + soft || flaked >= 1) continue;
    const open = Math.max(0, Math.min(1, 1.25 * level + 0.04 - wallHolds(flakes, place)));
    gone[k] += (1 - flaked) * covered(distance, half * open, soft);
  }
}

/** Whether a flake is off, with a ragged margin: `loose` in deviations of the surface. */
function lost(loose: number, holds: number): number {
  return Math.max(0, Math.min(1, 0.5 + (loose - 3.4 * holds) / 0.35));
}
