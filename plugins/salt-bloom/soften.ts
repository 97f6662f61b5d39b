import {
  addBicubicRow,
  type Box,
  cellIndex,
  diffuse,
  type FieldShape,
  fastCount,
  fieldShape,
  gaussianBlur,
} from 'tenter';
import type { Grains } from './grains.ts';

/**
 * Blurs as wet paint does: the wetter the wash was where the grain fell, the softer its bloom.
 *
 * @param wet Per cell, 0..1.
 */
export function soften(
  values: Float32Array,
  shape: FieldShape,
  wet: Float32Array,
  grains: Grains,
  winners: Int32Array,
): Float32Array {
  const diffusivity = new Float32Array(values.length);
  for (let k = 0; k < values.length; k++) {
    const grain = winners[k];
    const wetness = grain < 0 ? wet[k] : grains.wet[grain];
    const sigma = (0.07 + 0.65 * wetness * wetness) * (grain < 0 ? 1 : grains.blur[grain]);
    diffusivity[k] = 0.5 * sigma * sigma;
  }
  return diffuse({ ...shape, values }, diffusivity).values;
}

/** A wide blur, on cells a third of its deviation: nothing of it is lost. */
export function spread(values: Float32Array, box: Box, shape: FieldShape, sigma: number): Float32Array {
  const coarse = fieldShape(box, sigma / 3, fastCount);
  const sums = new Float32Array(coarse.width * coarse.height);
  const counts = new Float32Array(sums.length);
  for (let j = 0; j < shape.height; j++) {
    const row = Math.floor(((j + 0.5) * shape.mmPerCellY) / coarse.mmPerCellY);
    for (let i = 0; i < shape.width; i++) {
      const column = Math.floor(((i + 0.5) * shape.mmPerCellX) / coarse.mmPerCellX);
      const to = cellIndex(coarse, column, row);
      sums[to] += values[i + j * shape.width];
      counts[to]++;
    }
  }
  for (let k = 0; k < sums.length; k++) sums[k] = counts[k] > 0 ? sums[k] / counts[k] : 0;
  const blurred = gaussianBlur({ ...coarse, values: sums }, sigma);
  const out = new Float32Array(values.length);
  for (let j = 0; j < shape.height; j++)
    addBicubicRow(
      blurred,
      shape.mmPerCellX / 2,
      shape.mmPerCellX,
      (j + 0.5) * shape.mmPerCellY,
      1,
      out,
      shape.width,
      j * shape.width,
    );
  return out;
}
