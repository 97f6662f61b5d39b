import type { Lattice } from 'tenter';

/** A wave that closes over the repeat: turns per mm across and down. */
export interface Wave {
  readonly x: number;
  readonly y: number;
}

/** Waves tried of either kind. */
const MOST = 60;
/** A repeat that allows no laps broader than this, mm, is laid in one. */
const NARROWEST = 22;

/**
 * The wave of all that close over a lattice whose crests follow one another most nearly in a direction and at a
 * distance; none where the repeat is too small.
 *
 * @param direction Radians, 0 to the right, a quarter turn down.
 * @param length    mm
 */
export function waveNear({ ax, ay, bx, by }: Lattice, direction: number, length: number): Wave | undefined {
  const area = ax * by - ay * bx;
  const wanted = { x: Math.cos(direction) / length, y: Math.sin(direction) / length };
  let best: Wave | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let m = -MOST; m <= MOST; m++) {
    for (let n = -MOST; n <= MOST; n++) {
      const x = (m * by - n * ay) / area;
      const y = (n * ax - m * bx) / area;
      const far = Math.hypot(x - wanted.x, y - wanted.y);
      if (far >= least || Math.hypot(x, y) * NARROWEST > 1 || (m === 0 && n === 0)) continue;
      least = far;
      best = { x, y };
    }
  }
  return best;
}

/**
 * Paint that a lap of the brush adds, 0..1, by how far the place lies along the wave, in turns: the bead gathers
 * at its lower side, ends there in a crisp line, and thins out upward.
 */
export function lapAt(turns: number): number {
  const above = 1 - (turns - Math.floor(turns));
  return Math.exp(-above * 7) + 0.35 * (1 - above);
}
