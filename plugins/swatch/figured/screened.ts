import { type FieldShape, filterField } from 'tenter';
import type { Join } from './joins.ts';

/**
 * The field that steps by `steps` at the joins and is else as flat as can be, and as near to 0: what evens out
 * steps of the opposite sign. P. Perez, M. Gangnet and A. Blake, *Poisson image editing* (2003); drawn to 0 over
 * `spread` as in P. Bhat and others, *Fourier analysis of the 2D screened Poisson equation for gradient domain
 * problems* (2008). Exact over the torus, by Fourier.
 *
 * @param steps Per join: the value at its neighbour less that at its cell.
 * @param spread mm.
 */
export function stepping(
  shape: FieldShape,
  joins: readonly Join[],
  steps: Float64Array,
  spread: number,
): Float32Array {
  const { mmPerCellX, mmPerCellY } = shape;
  const pull = new Float32Array(shape.width * shape.height);
  joins.forEach(({ k, n }, index) => {
    pull[k] -= steps[index];
    pull[n] += steps[index];
  });
  const flat = (mmPerCellX * mmPerCellY) / spread ** 2;
  return filterField({ ...shape, values: pull }, (fx, fy) => {
    const across = 2 - 2 * Math.cos(2 * Math.PI * fx * mmPerCellX);
    const down = 2 - 2 * Math.cos(2 * Math.PI * fy * mmPerCellY);
    return 1 / (flat + across + down);
  }).values;
}
