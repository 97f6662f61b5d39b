import { cellIndex, type FieldShape } from 'tenter';
import type { Grains } from './grains.ts';

/** Adds a soft round spot to every grain: `height(k)` at its centre, `radius(k)` mm its deviation. */
export function addSpots(
  values: Float32Array,
  grains: Grains,
  shape: FieldShape,
  radius: (k: number) => number,
  height: (k: number) => number,
): void {
  const { mmPerCellX, mmPerCellY } = shape;
  for (let k = 0; k < grains.x.length; k++) {
    const crest = height(k);
    if (!(crest > 0)) continue;
    // A cell shows the mean of a spot over itself: wider by the cell's own variance, and lower.
    const variance = radius(k) ** 2 + (mmPerCellX * mmPerCellY) / 12;
    const top = (crest * radius(k) ** 2) / variance;
    const sigma = Math.sqrt(variance);
    const column = Math.floor(grains.x[k] / mmPerCellX);
    const row = Math.floor(grains.y[k] / mmPerCellY);
    const across = Math.ceil((3 * sigma) / mmPerCellX);
    const down = Math.ceil((3 * sigma) / mmPerCellY);
    for (let j = -down; j <= down; j++) {
      const dy = (row + j + 0.5) * mmPerCellY - grains.y[k];
      for (let i = -across; i <= across; i++) {
        const dx = (column + i + 0.5) * mmPerCellX - grains.x[k];
        values[cellIndex(shape, column + i, row + j)] +=
          top * Math.exp(-(dx * dx + dy * dy) / (2 * variance));
      }
    }
  }
}
