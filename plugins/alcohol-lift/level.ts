import { fieldShape, neutralLayer } from 'tenter';
import type { LiftModel } from './model.ts';
import { type LiftLayer, paintLift } from './paint.ts';

/** mm; the grid on which the paint is weighed. */
export const WEIGHING_CELL = 0.25;

/**
 * Scales the load so that its mean over the repeat is 1. The maps keep the paint by themselves;
 * what is off is the wash's own unevenness, the fraying of edges and values between cells.
 */
export function levelLoad(model: LiftModel): LiftModel {
  return { ...model, level: model.level / meanLoad(model) };
}

/** The mean load over the weighing grid. */
export function meanLoad(model: LiftModel): number {
  const { width, height, mmPerCellX, mmPerCellY } = fieldShape(model.box, WEIGHING_CELL);
  const rows = 16;
  let sum = 0;
  for (let y = 0; y < height; y += rows) {
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
    for (let k = 0; k < layer.load.length; k++) sum += layer.load[k];
  }
  return sum / (width * height);
}
