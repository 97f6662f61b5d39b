import { cellIndex, type PeriodicField } from 'tenter';
import type { Crease } from './crease.ts';

/** Half bands beyond which nothing is left of a crease. */
const REACH = 4;
/** Entries of the table below per half band. */
const STEPS = 128;

/**
 * How much is worn beside a crease, 1 on its ridge, by mm from the ridge over its half width: the ridge itself
 * is sharp, and what was rubbed with it lies softly to both sides.
 */
export function wornBeside(halves: number): number {
  return 0.66 * Math.exp(-1.5 * halves) + 0.34 * Math.exp(-((halves / 2.1) ** 2));
}

const BESIDE = Float32Array.from({ length: REACH * STEPS + 1 }, (_, k) => wornBeside(k / STEPS));

/**
 * Lays creases into a field, copies included; where two lie, the deeper shows.
 *
 * @param wider How many times wider than they are.
 */
export function stampCreases(field: PeriodicField, creases: readonly Crease[], wider = 1): void {
  for (const { xs, ys, depths, half } of creases) {
    for (let k = 1; k < xs.length; k++) {
      stampPiece(field, xs[k - 1], ys[k - 1], xs[k], ys[k], depths[k - 1], depths[k], wider * half);
    }
  }
}

function stampPiece(
  field: PeriodicField,
  x: number,
  y: number,
  toX: number,
  toY: number,
  depth: number,
  toDepth: number,
  half: number,
): void {
  const { values, mmPerCellX, mmPerCellY } = field;
  const [dx, dy] = [toX - x, toY - y];
  const square = dx * dx + dy * dy;
  const reach = REACH * half;
  const last = Math.floor((Math.max(x, toX) + reach) / mmPerCellX);
  const lastRow = Math.floor((Math.max(y, toY) + reach) / mmPerCellY);
  for (let j = Math.floor((Math.min(y, toY) - reach) / mmPerCellY); j <= lastRow; j++) {
    const py = (j + 0.5) * mmPerCellY - y;
    for (let i = Math.floor((Math.min(x, toX) - reach) / mmPerCellX); i <= last; i++) {
      const px = (i + 0.5) * mmPerCellX - x;
      const part = Math.max(0, Math.min(1, (px * dx + py * dy) / square));
      const away = Math.sqrt((px - part * dx) ** 2 + (py - part * dy) ** 2) / half;
      if (away > REACH) continue;
      const worn = (depth + (toDepth - depth) * part) * BESIDE[Math.round(away * STEPS)];
      const cell = cellIndex(field, i, j);
      if (worn > values[cell]) values[cell] = worn;
    }
  }
}
