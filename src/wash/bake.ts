import type { CellShape } from '../field/cells.ts';
import { addFractalRow, type FractalShape, fractalNoise } from '../field/fractal.ts';
import type { FieldShape } from '../field/periodic.ts';
import type { RandomStream } from '../field/random.ts';
import type { Box } from '../repeat/repeat.ts';

/** A fractal noise at the centre of every cell. */
export function bakeNoise(
  box: Box,
  shape: FieldShape,
  cell: CellShape,
  form: FractalShape,
  random: RandomStream,
): Float32Array {
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const noise = fractalNoise(box.lattice, cell, form, random);
  const values = new Float32Array(width * height);
  for (let j = 0; j < height; j++) {
    addFractalRow(noise, mmPerCellX / 2, mmPerCellX, (j + 0.5) * mmPerCellY, 1, values, width, j * width);
  }
  return values;
}
