import { expect, it } from 'vitest';
import { ninePoints } from './nine-points.ts';
import type { FieldShape } from './periodic.ts';

const cellsOf = (mmPerCellX: number, mmPerCellY: number) => ({ mmPerCellX, mmPerCellY }) as FieldShape;

/** What the star makes of a wave of frequency (fx, fy) radians per mm, beside -(fx^2 + fy^2). */
function symbolOf(shape: FieldShape, fx: number, fy: number): number {
  const { centre, beside, above, corner } = ninePoints(shape);
  const [c, d] = [Math.cos(fx * shape.mmPerCellX), Math.cos(fy * shape.mmPerCellY)];
  return centre + 2 * beside * c + 2 * above * d + 4 * corner * c * d;
}

it('is a Laplacian whose first error is the same in all directions: -f^2 + f^4 h^2 / 12', () => {
  const shape = cellsOf(0.1, 0.1);
  for (const degrees of [0, 15, 30, 45, 77]) {
    const angle = (degrees * Math.PI) / 180;
    const off = symbolOf(shape, 2 * Math.cos(angle), 2 * Math.sin(angle)) + 4;
    expect(off / (2 ** 4 * (0.1 ** 2 / 12))).toBeCloseTo(1, 2);
  }
});

it('damps no wave of the grid faster than it says, and one so fast', () => {
  for (const shape of [cellsOf(0.1, 0.1), cellsOf(0.1, 0.12), cellsOf(0.2, 0.1)]) {
    const { fastest } = ninePoints(shape);
    let most = 0;
    for (let p = 0; p <= 16; p++) {
      for (let q = 0; q <= 16; q++) {
        const [fx, fy] = [(Math.PI * p) / 16 / shape.mmPerCellX, (Math.PI * q) / 16 / shape.mmPerCellY];
        most = Math.max(most, -symbolOf(shape, fx, fy));
      }
    }
    expect(most / fastest).toBeCloseTo(1, 9);
  }
});
