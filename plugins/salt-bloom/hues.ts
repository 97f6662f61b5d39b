import { addBilinearRow, type Box, type FieldShape, fieldShape, type PeriodicField } from 'tenter';
import type { Ground } from './ground.ts';
import { coarsen } from './soften.ts';

/** mm */
const CELL = 0.4;
/** Stain is swept out of a bloom farther than heavy paint, and gathers in its rim. */
const IN_BLOOM = 0.42;
const IN_RIM = 0.22;
/** How far heavy paint may outweigh the stain. */
const MOST = 0.75;

/**
 * How much more of the paint is heavy than stain, -1..1. Of either pigment as much is left as there was.
 *
 * @param load What lies there, mean 1, and `lift`, how much was drawn away, per cell of `shape`.
 */
export function partPigments(
  box: Box,
  shape: FieldShape,
  load: Float32Array,
  lift: Float32Array,
  ground: Ground | undefined,
  brushwork: number,
): PeriodicField {
  const cells = fieldShape(box, Math.max(CELL, shape.mmPerCellX));
  const lifted = coarsen(lift, shape, cells).values;
  const loads = coarsen(load, shape, cells).values;
  const values = new Float32Array(lifted.length);
  const { width, height, mmPerCellX, mmPerCellY } = cells;
  if (ground) {
    for (let j = 0; j < height; j++) {
      const y = (j + 0.5) * mmPerCellY;
      addBilinearRow(ground.heavy, mmPerCellX / 2, mmPerCellX, y, brushwork, values, width, j * width);
    }
  }
  let [sum, total] = [0, 0];
  for (let k = 0; k < values.length; k++) {
    const gathered = Math.max(0, loads[k] - 1);
    const heavy = values[k] + IN_BLOOM * lifted[k] - IN_RIM * gathered;
    values[k] = Math.max(-MOST, Math.min(MOST, heavy));
    sum += loads[k] * values[k];
    total += loads[k];
  }
  for (let k = 0; k < values.length; k++) values[k] -= sum / total;
  return { ...cells, values };
}
