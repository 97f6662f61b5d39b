import {
  addFractalRow,
  type Box,
  bakeField,
  bilinearAt,
  type CellShape,
  type FieldShape,
  type FractalNoise,
  type FractalShape,
  type PeriodicField,
} from 'tenter';

/** Makes a noise by its name. */
export type Noise = (name: string, shape: CellShape, fractal: FractalShape) => FractalNoise;

export function roundCell(size: number): CellShape {
  return { along: size, across: size };
}

/** The noise on a grid. */
export function bake(box: Box, mmPerCell: number, noise: FractalNoise): PeriodicField {
  return bakeField(box, mmPerCell, (x0, step, y, row, count, offset) =>
    addFractalRow(noise, x0, step, y, 1, row, count, offset),
  );
}

/** The field at the cells of another shape over the same box. */
export function sample(field: PeriodicField, shape: FieldShape): Float32Array {
  const values = new Float32Array(shape.width * shape.height);
  for (let j = 0, k = 0; j < shape.height; j++)
    for (let i = 0; i < shape.width; i++, k++)
      values[k] = bilinearAt(field, (i + 0.5) * shape.mmPerCellX, (j + 0.5) * shape.mmPerCellY);
  return values;
}

export function emptyLike(shape: FieldShape): PeriodicField {
  return { ...shape, values: new Float32Array(shape.width * shape.height) };
}

export function asField(shape: FieldShape, values: Float64Array): PeriodicField {
  return { ...shape, values: Float32Array.from(values) };
}

export function logarithm(shape: FieldShape, values: Float64Array): PeriodicField {
  return { ...shape, values: Float32Array.from(values, (value) => Math.log(Math.max(0.02, value))) };
}

/** Moves smooth fields onto larger cells. */
export function softener(shape: FieldShape): (field: PeriodicField) => PeriodicField {
  return (field) => ({ ...shape, values: sample(field, shape) });
}
