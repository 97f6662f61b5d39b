import type { FieldShape } from './periodic.ts';

/**
 * What the nine-point star multiplies the cells around by, 1 / mm2, to give the Laplacian: both second
 * differences and (hx^2 + hy^2) / 12 of their product, which makes the first error the same in all directions
 * (the Mehrstellen star; L. Collatz, *The Numerical Treatment of Differential Equations*, 1960). Patterns that
 * come of it show no grid.
 */
export interface NinePoints {
  readonly centre: number;
  readonly beside: number;
  readonly above: number;
  readonly corner: number;
  /** The largest rate at which a wave of the grid is damped, per diffusivity: 1 / mm2. */
  readonly fastest: number;
}

export function ninePoints({ mmPerCellX, mmPerCellY }: FieldShape): NinePoints {
  const a = 1 / (mmPerCellX * mmPerCellX);
  const b = 1 / (mmPerCellY * mmPerCellY);
  const corner = (a + b) / 12;
  return {
    centre: 4 * corner - 2 * (a + b),
    beside: a - 2 * corner,
    above: b - 2 * corner,
    corner,
    fastest: Math.max(4 * a, 4 * b, (8 / 3) * (a + b)),
  };
}
