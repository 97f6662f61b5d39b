import { cellIndex, type FieldShape } from 'tenter';

/** The numbers of cells with a frame of copies, one cell wide. */
export function framed(shape: FieldShape, values: Float32Array): Float32Array {
  const { width, height } = shape;
  const stride = width + 2;
  const made = new Float32Array(stride * (height + 2));
  for (let j = -1; j <= height; j++) {
    for (let i = -1; i <= width; i++) made[i + 1 + (j + 1) * stride] = values[cellIndex(shape, i, j)];
  }
  return made;
}
