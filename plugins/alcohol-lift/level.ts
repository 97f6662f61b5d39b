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
 * @param every 1 weighs all rows of the grid, 3 a third of them.
 */
export function meanLoad(model: LiftModel, every = 1): number {
  const { width, height, mmPerCellX, mmPerCellY } = fieldShape(model.box, WEIGHING_CELL);
  const rows = 4;
  let sum = 0;
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
    const layer = neutralLayer(['load'], width, band.height) as LiftLayer;
    paintLift(model, band, layer);
    samples += layer.load.length;
    for (let k = 0; k < layer.load.length; k++) sum += layer.load[k];
  }
  return sum / samples;
}
