import {
  type Band,
  boxOf,
  fitGrid,
  type Grid,
  neutralLayer,
  parseLayout,
  parseSize,
  type Report,
} from 'tenter';
import { openSetting } from 'tenter/render';
import linen from './index.ts';
import type { LinenModel } from './model.ts';

/** What the tests of the linen share: a cloth made, and its planes over any band. */
export interface Made {
  readonly model: LinenModel;
  readonly reports: readonly Report[];
  readonly grid: Grid;
}

export function makeLinen(
  parameters: Readonly<Record<string, unknown>>,
  layout: string,
  size: string,
  dpi = 300,
): Made {
  const repeat = { layout: parseLayout(layout), ...parseSize(size) };
  const { setting, reports } = openSetting(linen, { box: boxOf(repeat), seed: 'test', parameters });
  const model = linen.prepare(setting as never) as LinenModel;
  return { model, reports, grid: fitGrid(repeat, dpi / 25.4) };
}

/** Paints `width` x `height` pixels from (x, y) on; both planes. */
export function paintLinen({ model, grid }: Made, x: number, y: number, width: number, height: number) {
  const layer = neutralLayer(['shade', 'tint'], width, height) as {
    width: number;
    height: number;
    shade: Float32Array;
    tint: Float32Array;
  };
  const band: Band = { x, y, width, height, mmPerPixelX: grid.mmPerPixelX, mmPerPixelY: grid.mmPerPixelY };
  linen.paint(model, band, layer);
  return layer;
}

export function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum / values.length;
}
