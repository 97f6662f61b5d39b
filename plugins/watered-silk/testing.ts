import {
  type Band,
  boxOf,
  fitGrid,
  type Grid,
  neutralLayer,
  parseLayout,
  parseSize,
  type Report,
  type TextureLayer,
} from 'tenter';
import { openSetting } from 'tenter/render';
import watered from './index.ts';
import type { WateredModel } from './model.ts';

/** What the tests of the watered silk share: a cloth made, and its shade over any band. */
export interface Made {
  readonly model: WateredModel;
  readonly reports: readonly Report[];
  readonly grid: Grid;
}

export function makeWatered(
  parameters: Readonly<Record<string, unknown>>,
  layout: string,
  size: string,
  dpi = 300,
): Made {
  const repeat = { layout: parseLayout(layout), ...parseSize(size) };
  const { setting, reports } = openSetting(watered, { box: boxOf(repeat), seed: 'test', parameters });
  const model = watered.prepare(setting as never) as WateredModel;
  return { model, reports, grid: fitGrid(repeat, dpi / 25.4) };
}

/** Paints `width` x `height` pixels from (x, y) on. */
export function paintWatered(
  { model, grid }: Pick<Made, 'model' | 'grid'>,
  x: number,
  y: number,
  width: number,
  height: number,
): TextureLayer<'shade'> {
  const layer = neutralLayer(['shade'], width, height) as TextureLayer<'shade'>;
  const band: Band = { x, y, width, height, mmPerPixelX: grid.mmPerPixelX, mmPerPixelY: grid.mmPerPixelY };
  watered.paint(model, band, layer);
  return layer;
}

export function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum / values.length;
}

/** The means of blocks of `factor` x `factor` pixels. */
export function blockMeans(plane: Float32Array, width: number, factor: number): Float32Array {
  const across = width / factor;
  const means = new Float32Array(plane.length / factor ** 2);
  for (let k = 0; k < plane.length; k++) {
    const block = Math.floor((k % width) / factor) + Math.floor(k / width / factor) * across;
    means[block] += plane[k] / factor ** 2;
  }
  return means;
}

/** Pearson's correlation. */
export function correlationOf(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const [meanA, meanB] = [meanOf(a), meanOf(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k++) {
    ab += (a[k] - meanA) * (b[k] - meanB);
    aa += (a[k] - meanA) ** 2;
    bb += (b[k] - meanB) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}
