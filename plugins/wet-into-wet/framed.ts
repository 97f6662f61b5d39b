import { cellIndex, type PeriodicField } from 'tenter';
import type { Framed } from './model.ts';

/** Cells around a field: look-ups stray by half a cell at most, and a cubic looks two further. */
export const FRAME = 4;

/** The field with copies of its far sides around it. */
export function frameField(field: PeriodicField): Framed {
  const { width, height, values, mmPerCellX, mmPerCellY } = field;
  const stride = width + 2 * FRAME;
  const framed = new Float32Array(stride * (height + 2 * FRAME));
  for (let j = -FRAME, at = 0; j < height + FRAME; j++)
    for (let i = -FRAME; i < width + FRAME; i++, at++) framed[at] = values[cellIndex(field, i, j)];
  return { values: framed, stride, mmPerCellX, mmPerCellY };
}

/**
 * Adds the field at points along a row, each moved by `stray` times its own displacement: the cubic of Catmull
 * and Rom, held between the four nearest values, so that no crisp edge gets a halo.
 */
export function addStrayingRow(
  { values, stride, mmPerCellX, mmPerCellY }: Framed,
  x0: number,
  step: number,
  y: number,
  dx: Float64Array,
  dy: Float64Array,
  stray: number,
  row: Float64Array,
  count: number,
): void {
  const s0 = x0 / mmPerCellX - 0.5 + FRAME;
  const t0 = y / mmPerCellY - 0.5 + FRAME;
  const across = step / mmPerCellX;
  for (let k = 0; k < count; k++) {
    const s = s0 + across * k + held(stray * dx[k]);
    const t = t0 + held(stray * dy[k]);
    const i = Math.floor(s);
    const j = Math.floor(t);
    const u = s - i;
    const v = t - j;
    const at = i - 1 + (j - 1) * stride;
    const b = at + stride;
    const c = b + stride;
    const d = c + stride;
    // The shares of `cubicShares`.
    const u0 = 0.5 * u * (u * (2 - u) - 1);
    const u1 = 1 + 0.5 * u * u * (3 * u - 5);
    const u2 = 0.5 * u * (1 + u * (4 - 3 * u));
    const u3 = 0.5 * u * u * (u - 1);
    const v0 = 0.5 * v * (v * (2 - v) - 1);
    const v1 = 1 + 0.5 * v * v * (3 * v - 5);
    const v2 = 0.5 * v * (1 + v * (4 - 3 * v));
    const v3 = 0.5 * v * v * (v - 1);
    const p = values[b + 1];
    const q = values[b + 2];
    const r = values[c + 1];
    const w = values[c + 2];
    const sum =
      v0 * (u0 * values[at] + u1 * values[at + 1] + u2 * values[at + 2] + u3 * values[at + 3]) +
      v1 * (u0 * values[b] + u1 * p + u2 * q + u3 * values[b + 3]) +
      v2 * (u0 * values[c] + u1 * r + u2 * w + u3 * values[c + 3]) +
      v3 * (u0 * values[d] + u1 * values[d + 1] + u2 * values[d + 2] + u3 * values[d + 3]);
    const low = Math.min(p, q, r, w);
    const high = Math.max(p, q, r, w);
    row[k] += sum < low ? low : Math.min(sum, high);
  }
}

/** Strays further than a cell would leave the frame. */
function held(cells: number): number {
  return cells > 1 ? 1 : Math.max(cells, -1);
}
