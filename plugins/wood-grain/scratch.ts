import type { WoodModel } from './model.ts';
import { levelFor } from './sheet.ts';

/** Working rows of one call of paint. Pixel i of the box stands at index i - first of the pixel rows. */
export interface RowScratch {
  readonly tone: Float32Array;
  readonly light: Float32Array;
  readonly pore: Float32Array;
  /** The nodes' fields at the height of the row, one value per node column. */
  readonly radius: Float64Array;
  readonly climb: Float64Array;
  readonly wash: Float64Array;
  readonly drift: Float64Array;
  readonly ray: Float64Array;
  readonly weights: Float64Array;
  readonly slopes: Float64Array;
  /** The sheet of fibres at the height of the row, one value per cell, from cell `firstCell` on. */
  readonly streak: Float32Array;
  readonly jitter: Float32Array;
  /** Bounds of `drift` over the node columns in use, mm. */
  driftLow: number;
  driftHigh: number;
}

/**
 * @param pixels Pixels across the widest window.
 * @param mmU    mm per pixel across.
 */
export function rowScratch(model: WoodModel, pixels: number, mmU: number): RowScratch {
  const columns = model.pieces.reduce((most, { grid }) => Math.max(most, grid.columns), 0);
  const { cellU } = levelFor(model.sheet, mmU);
  const cells = Math.ceil((pixels * mmU + 2 * model.fibreReach + 8 * mmU) / cellU) + 8;
  const pixelRow = () => new Float32Array(pixels + 4);
  const nodeRow = () => new Float64Array(columns);
  const cellRow = () => new Float32Array(cells);
  return {
    tone: pixelRow(),
    light: pixelRow(),
    pore: pixelRow(),
    radius: nodeRow(),
    climb: nodeRow(),
    wash: nodeRow(),
    drift: nodeRow(),
    ray: nodeRow(),
    weights: new Float64Array(4),
    slopes: new Float64Array(4),
    streak: cellRow(),
    jitter: cellRow(),
    driftLow: 0,
    driftHigh: 0,
  };
}
