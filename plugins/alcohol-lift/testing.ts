import {
  type Band,
  boxOf,
  fitGrid,
  type Grid,
  neutralLayer,
  type PlaneName,
  parseLayout,
  parseSize,
  type Report,
} from 'tenter';
import { openSetting } from 'tenter/render';
import type { Drop } from './drop.ts';
import lift from './index.ts';
import type { LiftModel } from './model.ts';
import type { LiftLayer } from './paint.ts';

/** What the tests of the lift share: a wash made, and its planes over any band. */
export interface Made {
  readonly model: LiftModel;
  readonly reports: readonly Report[];
  readonly grid: Grid;
}

export interface MakeOptions {
  readonly dpi?: number;
  readonly quality?: 'finished' | 'sketch';
  readonly seed?: string;
}

export function makeLift(
  parameters: Readonly<Record<string, unknown>>,
  layout: string,
  size: string,
  { dpi = 300, quality = 'finished', seed = 'test' }: MakeOptions = {},
): Made {
  const repeat = { layout: parseLayout(layout), ...parseSize(size) };
  const { setting, reports } = openSetting(lift, { box: boxOf(repeat), seed, parameters, quality });
  const model = lift.prepare(setting as never) as LiftModel;
  return { model, reports, grid: fitGrid(repeat, dpi / 25.4) };
}

export function paintLift(
  { model, grid }: Pick<Made, 'model' | 'grid'>,
  x: number,
  y: number,
  width: number,
  height: number,
  planes: readonly PlaneName[] = ['load', 'shift', 'bleed', 'tint'],
): LiftLayer {
  const layer = neutralLayer(planes, width, height) as LiftLayer;
  const band: Band = { x, y, width, height, mmPerPixelX: grid.mmPerPixelX, mmPerPixelY: grid.mmPerPixelY };
  lift.paint(model, band, layer);
  return layer;
}

/** The load of the whole box. */
export function wholeLoad(made: Pick<Made, 'model' | 'grid'>): Float32Array {
  return paintLift(made, 0, 0, made.grid.width, made.grid.height, ['load']).load;
}

export function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum / values.length;
}

/** Pearson's correlation. */
export function correlation(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const [meanA, meanB] = [meanOf(a), meanOf(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k++) {
    ab += (a[k] - meanA) * (b[k] - meanB);
    aa += (a[k] - meanA) ** 2;
    bb += (b[k] - meanB) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

/** Means of `times` x `times` blocks of a picture. */
export function boxFiltered(values: Float32Array, width: number, times: number): Float32Array {
  const columns = Math.floor(width / times);
  const rows = Math.floor(values.length / width / times);
  const means = new Float32Array(columns * rows);
  for (let y = 0; y < rows * times; y++)
    for (let x = 0; x < columns * times; x++)
      means[Math.floor(y / times) * columns + Math.floor(x / times)] += values[y * width + x] / times ** 2;
  return means;
}

/** A drop without anything particular in the middle of a box of 40 x 30 mm. */
export const PLAIN_DROP: Drop = {
  x: 20,
  y: 15,
  radius: 4,
  time: 0,
  softness: 0,
  stain: 0,
  lobes: 0,
  stretch: 0,
  heading: 0,
  form: 'flat',
  isApart: false,
  ink: 1,
  sweep: 1,
  bleed: 0,
  fingers: 0,
  grain: 0,
};
