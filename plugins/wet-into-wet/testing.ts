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
import wet from './index.ts';
import type { WetModel } from './model.ts';

/** What the tests of the wash share: a wash made, and its planes over any band. */
export interface Made {
  readonly model: WetModel;
  readonly reports: readonly Report[];
  readonly grid: Grid;
}

export function makeWet(
  parameters: Readonly<Record<string, unknown>>,
  layout: string,
  size: string,
  { dpi = 300, quality = 'finished' as 'finished' | 'sketch', seed = 'test' } = {},
): Made {
  const repeat = { layout: parseLayout(layout), ...parseSize(size) };
  const { setting, reports } = openSetting(wet, { box: boxOf(repeat), seed, parameters, quality });
  const model = wet.prepare(setting as never) as WetModel;
  return { model, reports, grid: fitGrid(repeat, dpi / 25.4) };
}

export interface Painted {
  readonly load: Float32Array;
  readonly shift: Float32Array;
  readonly tint: Float32Array;
  readonly bleed: Float32Array;
}

/** Paints `width` x `height` pixels from (x, y) on; all planes. */
export function paintWet(
  { model, grid }: Made,
  x: number,
  y: number,
  width: number,
  height: number,
): Painted {
  const layer = neutralLayer(wet.planes, width, height) as unknown as Painted & {
    width: number;
    height: number;
  };
  const band: Band = { x, y, width, height, mmPerPixelX: grid.mmPerPixelX, mmPerPixelY: grid.mmPerPixelY };
  wet.paint(model, band, layer);
  return layer;
}

export function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum / values.length;
}

export function correlationOf(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const [ma, mb] = [meanOf(a), meanOf(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k++) {
    ab += (a[k] - ma) * (b[k] - mb);
    aa += (a[k] - ma) ** 2;
    bb += (b[k] - mb) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

/** Means over squares of `size` pixels. */
export function boxed(values: Float32Array, width: number, height: number, size: number): Float32Array {
  const [across, down] = [width / size, height / size];
  const means = new Float32Array(across * down);
  for (let j = 0; j < down * size; j++)
    for (let i = 0; i < across * size; i++)
      means[Math.floor(j / size) * across + Math.floor(i / size)] += values[j * width + i] / size ** 2;
  return means;
}
