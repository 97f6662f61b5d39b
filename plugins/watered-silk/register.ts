import type { Lattice } from 'tenter';

/**
 * How far the second layer's ribs lag behind the first's, in ribs: a slope across the cloth, by which
 * bands run through from edge to edge. Both vectors of the repeat must change it by whole ribs, for
 * a whole rib further on the layers are in register again.
 */
export interface Slope {
  /** Ribs per mm, across and down. */
  readonly x: number;
  readonly y: number;
}

/**
 * The slope across nearest to `perMm` that closes over the repeat, and as nearly level down the cloth
 * as it may be.
 */
export function closingSlope({ ax, ay, bx, by }: Lattice, perMm: number): Slope {
  const area = ax * by - ay * bx;
  const wanted = [Math.round(perMm * ax), Math.round(perMm * bx)];
  return { x: (wanted[0] * by - wanted[1] * ay) / area, y: (wanted[1] * ax - wanted[0] * bx) / area };
}

/** The count of ribs in the height of the box nearest to `perMm` that closes: under a drop of p/q a multiple of q. */
export function closingRibs({ ay, by }: Lattice, denominator: number, perMm: number): number {
  const step = ay === 0 ? 1 : denominator;
  return Math.max(1, Math.round((perMm * by) / step)) * step;
}
