import { fieldShape, neutralLayer } from 'tenter';
import type { LiftModel } from './model.ts';
import { type LiftLayer, paintLift } from './paint.ts';

/** mm; the grid on which the paint is weighed: a sample per cell. */
export const WEIGHING_CELL = 0.165;

/**
 * The mean load over the weighing grid, by which it is divided to come to 1. The maps keep the paint by
 * themselves; what is off is the wash's own unevenness, the fraying of edges, stains that were there
 * already where openings overlap, and paint that was heaped up so high that it ran on over the sheet.
 *
 * The mean of the heavy pigment less the stain, in the same unit, by which the hues are levelled.
 *
 * @param every 1 weighs all rows of the grid, 3 a third of them.
 */
export function meanPaint(model: LiftModel, every = 1): { readonly load: number; readonly heavy: number } {
  const { width, height, mmPerCellX, mmPerCellY } = fieldShape(model.box, WEIGHING_CELL);
  const rows = 4;
  // A hue of 1 tells how much heavier the paint is.
  const weighed = { ...model, parted: model.parted && { ...model.parted, hues: [1, 0, 0] as const } };
  let [sum, heavy] = [0, 0];
  let samples = 0;
  for (let y = 0; y < height; y += rows * every) {
    const band = {
      x: 0,
      y,
      width,
      height: Math.min(rows, height - y),
      mmPerPixelX: mmPerCellX,
      mmPerPixelY: mmPerCellY,
    };
    const layer = neutralLayer(
      model.parted ? ['load', 'parting'] : ['load'],
      width,
      band.height,
    ) as LiftLayer;
    paintLift(weighed, band, layer);
    samples += layer.load.length;
    for (let k = 0; k < layer.load.length; k++) sum += layer.load[k];
    for (let k = 0; model.parted && k < layer.parting.length; k += 3) heavy += layer.parting[k];
  }
  return { load: sum / samples, heavy: heavy / samples };
}
