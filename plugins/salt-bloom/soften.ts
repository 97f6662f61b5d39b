import {
  addBicubicRow,
  type Box,
  cellIndex,
  diffuse,
  type FieldShape,
  fastCount,
  fieldShape,
  gaussianBlur,
  type PeriodicField,
  smoothstep,
} from 'tenter';
import type { Grains } from './grains.ts';

/** A blur of more than this deviation, mm, leaves nothing that larger cells could not hold. */
const FINE = 0.3;
/** mm */
const SOFT_CELL = 0.32;

/**
 * Blurs as wet paint does: the wetter the wash was where the grain fell, the softer its bloom.
 *
 * u_t = div(D grad u) on the cells as they are for what stays crisp, and on larger ones, where it costs a
 * tenth, for what becomes soft.
 *
 * @param wet Per cell, 0..1.
 */
export function soften(
  values: Float32Array,
  box: Box,
  shape: FieldShape,
  wet: Float32Array,
  grains: Grains,
  winners: Int32Array,
): Float32Array {
  const sigma = wet;
  let softest = 0;
  for (let k = 0; k < values.length; k++) {
    const grain = winners[k];
    const wetness = grain < 0 ? wet[k] : grains.wet[grain];
    sigma[k] = (0.07 + 0.5 * wetness * wetness) * (grain < 0 ? 1 : grains.blur[grain]);
    if (sigma[k] > softest) softest = sigma[k];
  }
  const least = Math.max(FINE, 1.5 * shape.mmPerCellX);
  const crisp = diffuse(
    { ...shape, values },
    sigma.map((length) => 0.5 * Math.min(length, least) ** 2),
  ).values;
  if (softest <= least) return crisp;
  const cells = fieldShape(box, Math.max(SOFT_CELL, shape.mmPerCellX), fastCount);
  const spreads = coarsen(
    sigma.map((length) => 0.5 * length * length),
    shape,
    cells,
  );
  const soft = refine(diffuse(coarsen(values, shape, cells), spreads.values), shape);
  for (let k = 0; k < crisp.length; k++) {
    const share = smoothstep((sigma[k] - 0.8 * least) / (0.4 * least));
    crisp[k] += share * (soft[k] - crisp[k]);
  }
  return crisp;
}

/** A wide blur, on cells a third of its deviation: nothing of it is lost. */
export function spread(values: Float32Array, box: Box, shape: FieldShape, sigma: number): Float32Array {
  const coarse = fieldShape(box, Math.max(sigma / 3, shape.mmPerCellX), fastCount);
  return refine(gaussianBlur(coarsen(values, shape, coarse), sigma), shape);
}

/** Means over larger cells. */
export function coarsen(values: Float32Array, shape: FieldShape, cells: FieldShape): PeriodicField {
  const sums = new Float32Array(cells.width * cells.height);
  const counts = new Float32Array(sums.length);
  for (let j = 0; j < shape.height; j++) {
    const row = Math.floor(((j + 0.5) * shape.mmPerCellY) / cells.mmPerCellY);
    for (let i = 0; i < shape.width; i++) {
      const column = Math.floor(((i + 0.5) * shape.mmPerCellX) / cells.mmPerCellX);
      const to = cellIndex(cells, column, row);
      sums[to] += values[i + j * shape.width];
      counts[to]++;
    }
  }
  for (let k = 0; k < sums.length; k++) sums[k] /= Math.max(1, counts[k]);
  return { ...cells, values: sums };
}

/** The values of a smooth field on smaller cells. */
function refine(field: PeriodicField, { width, height, mmPerCellX, mmPerCellY }: FieldShape): Float32Array {
  const values = new Float32Array(width * height);
  for (let j = 0; j < height; j++) {
    addBicubicRow(field, mmPerCellX / 2, mmPerCellX, (j + 0.5) * mmPerCellY, 1, values, width, j * width);
  }
  return values;
}
