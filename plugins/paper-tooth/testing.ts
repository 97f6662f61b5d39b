import {
  type Band,
  boxOf,
  fitGrid,
  type Grid,
  neutralLayer,
  parseLayout,
  parseSize,
  type Quality,
  type Report,
  type TextureLayer,
} from 'tenter';
import { openSetting } from 'tenter/render';
import paper from './index.ts';
import type { PaperModel } from './model.ts';

/** What the tests of the paper share: a sheet made, and its planes over any band. */
export interface Made {
  readonly model: PaperModel;
  readonly reports: readonly Report[];
  readonly grid: Grid;
}

export function makePaper(
  parameters: Readonly<Record<string, unknown>>,
  layout: string,
  size: string,
  dpi = 300,
  quality: Quality = 'finished',
): Made {
  const repeat = { layout: parseLayout(layout), ...parseSize(size) };
  const { setting, reports } = openSetting(paper, { box: boxOf(repeat), seed: 'test', quality, parameters });
  const model = paper.prepare(setting as never) as PaperModel;
  return { model, reports, grid: fitGrid(repeat, dpi / 25.4) };
}

/** Paints `width` x `height` pixels from (x, y) on; both planes. */
export function paintPaper(
  { model, grid }: Pick<Made, 'model' | 'grid'>,
  x: number,
  y: number,
  width: number,
  height: number,
): TextureLayer<'shade' | 'load'> {
  const layer = neutralLayer(['shade', 'load'], width, height) as TextureLayer<'shade' | 'load'>;
  const band: Band = { x, y, width, height, mmPerPixelX: grid.mmPerPixelX, mmPerPixelY: grid.mmPerPixelY };
  paper.paint(model, band, layer);
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
