import {
  addFractalRow,
  type Box,
  cellIndex,
  emptyField,
  fastCount,
  filterField,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
} from 'tenter';
import type { WaxValues } from './parameters.ts';
import type { Trace } from './trace.ts';

/** Dye that crept on from the cracks, and what came through thin wax: 0 and up, soft. */
export function bleedOf(
  box: Box,
  traces: readonly Trace[],
  { bleeding, blush }: WaxValues,
  random: RandomStream,
): PeriodicField {
  const sigma = 0.55 * bleeding;
  const cell = Math.max(0.3, Math.min(1.6, 0.8 * sigma), Math.sqrt(box.width * box.height) / 2400);
  const dropped = emptyField(box, cell, fastCount);
  if (bleeding > 0) for (const trace of traces) dropDye(dropped, trace);
  const field = bleeding > 0 ? crept(dropped, Math.max(sigma, 0.7 * cell)) : dropped;
  if (blush > 0) addBlush(field, box, blush / 100, random);
  return field;
}

/** Most of the dye stays near its crack, some goes three times as far along the better threads. */
function crept(field: PeriodicField, sigma: number): PeriodicField {
  const rate = -2 * (Math.PI * sigma) ** 2;
  return filterField(field, (fx, fy) => {
    const square = fx * fx + fy * fy;
    return 1.15 * (0.66 * Math.exp(rate * square) + 0.34 * Math.exp(9 * rate * square));
  });
}

/** Drops each piece's dye (width x dye x length) along it, in steps that no cell can tell apart. */
function dropDye(field: PeriodicField, { xs, ys, halves, inks }: Trace): void {
  const { mmPerCellX, mmPerCellY } = field;
  for (let k = 1; k < xs.length; k++) {
    const length = Math.hypot(xs[k] - xs[k - 1], ys[k] - ys[k - 1]);
    const drops = Math.ceil(length / (0.6 * Math.min(mmPerCellX, mmPerCellY)));
    for (let n = 0; n < drops; n++) {
      const t = (n + 0.5) / drops;
      const at = (values: Float64Array) => values[k - 1] + t * (values[k] - values[k - 1]);
      const dye = ((length / drops) * 2 * at(halves) * at(inks)) / (mmPerCellX * mmPerCellY);
      dropAt(field, at(xs) / mmPerCellX - 0.5, at(ys) / mmPerCellY - 0.5, dye);
    }
  }
}

/** Shares out dye over the four cells nearest to (s, t), in cells. */
function dropAt(field: PeriodicField, s: number, t: number, dye: number): void {
  const { values } = field;
  const i = Math.floor(s);
  const j = Math.floor(t);
  const u = s - i;
  const v = t - j;
  values[cellIndex(field, i, j)] += dye * (1 - u) * (1 - v);
  values[cellIndex(field, i + 1, j)] += dye * u * (1 - v);
  values[cellIndex(field, i, j + 1)] += dye * (1 - u) * v;
  values[cellIndex(field, i + 1, j + 1)] += dye * u * v;
}

function addBlush(field: PeriodicField, box: Box, amount: number, random: RandomStream): void {
  const { values, width, height, mmPerCellX, mmPerCellY } = field;
  const cloud = fractalNoise(box.lattice, { along: 38, across: 38 }, { octaves: 5, gain: 0.6 }, random);
  const row = new Float32Array(width);
  for (let j = 0; j < height; j++) {
    row.fill(0);
    addFractalRow(cloud, mmPerCellX / 2, mmPerCellX, (j + 0.5) * mmPerCellY, 1, row, width);
    for (let i = 0; i < width; i++) values[i + j * width] += amount * Math.max(0, 0.35 + row[i]) ** 1.5;
  }
}
