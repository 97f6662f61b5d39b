import type { WoodModel } from './model.ts';
import type { Piece } from './piece.ts';
import { RAY, RAY_PITCH, RAY_STRETCH, type RayCache } from './rays.ts';
import type { RowRange } from './ring-pass.ts';
import type { RowScratch } from './scratch.ts';
import type { SheetLevel } from './sheet.ts';

/** Rays that a pixel is averaged over at most. */
const MOST_RAYS = 3;

/**
 * Lays the wood rays over a row. Where the face runs along the rays they are pale, silky ribbons that
 * hide rings and pores; where it cuts across them they are fine dark lines.
 *
 * @param v mm of the piece.
 */
export function rayPass(
  model: WoodModel,
  piece: Piece,
  range: RowRange,
  v: number,
  row: RowScratch,
  sheet: SheetLevel,
  firstCell: number,
  rays: RayCache,
): void {
  const { layer, values } = rays;
  const { grid } = piece;
  const { i0, i1, mmU, mmV, offsetU } = range;
  const first = range.origin;
  const { tone, light, pore, jitter } = row;
  const strength = model.look.rayStrength;
  const scale = mmU * grid.perMmU;
  const origin = (-offsetU - grid.u0) * grid.perMmU;
  const cellScale = mmU / sheet.cellU;
  const cellShift = (piece.detailU - offsetU) / sheet.cellU - sheet.lead;
  const perPitch = 1 / RAY_PITCH;
  const height = v + piece.detailV;
  // Stretches are counted from where the ray's own column stands, so that both come back together.
  const lengthScale = mmU / RAY_STRETCH;
  const lengthOrigin = (piece.detailU - offsetU - layer.perMm * height) / RAY_STRETCH;
  const lengthPerColumn = layer.perColumn / RAY_STRETCH;
  let shownColumn = Number.NaN;
  let shownStretch = Number.NaN;
  let ray = 0;
  let thick = 0;
  let here = 0;
  let middle = 0;
  const endOf = (c: number) => Math.ceil((c + 1 - origin) / scale - 0.5);
  let c = Math.floor((i0 + 0.5) * scale + origin);
  while (endOf(c) <= i0) c++;
  while (endOf(c - 1) > i0) c--;
  for (let i = i0; i < i1; c++) {
    const end = Math.min(i1, endOf(c));
    const n = Math.max(1, Math.min(grid.columns - 3, c));
    const [p, q, r, s] = [row.ray[n - 1], row.ray[n], row.ray[n + 1], row.ray[n + 2]];
    const a0 = ((p + 4 * q + r) / 6) * perPitch;
    const a1 = ((r - p) / 2) * perPitch;
    const a2 = ((p - 2 * q + r) / 2) * perPitch;
    const a3 = ((s - p + 3 * (q - r)) / 6) * perPitch;
    // How flat the face lies to the ray, from its slope in the middle of the step.
    const slope = Math.abs((a1 + a2 + 0.75 * a3) * grid.perMmU * RAY_PITCH);
    const flat = 1 / (1 + (slope / 0.3) ** 2);
    for (; i < end; i++) {
      const t = (i + 0.5) * scale + origin - n;
      const k = i - first;
      const cell = Math.floor((i + 0.5) * cellScale + cellShift) - firstCell;
      const at = a0 + t * (a1 + t * (a2 + t * a3)) + 0.05 * jitter[cell];
      const span = Math.abs(scale * (a1 + t * (2 * a2 + 3 * t * a3))) + mmV * 0.02 + 0.004;
      // A pixel may span several rays; more than a few of them are as good as their mean.
      const reach = Math.min(MOST_RAYS, span) / 2;
      const lastColumn = Math.floor(at + reach);
      for (let column = Math.floor(at - reach); column <= lastColumn; column++) {
        const length = (i + 0.5) * lengthScale + lengthOrigin - column * lengthPerColumn;
        const stretch = Math.floor(length);
        if (column !== shownColumn || stretch !== shownStretch) {
          shownColumn = column;
          shownStretch = stretch;
          ray = rays.find(column, height, stretch);
          const offV = (height - values[ray + RAY.height]) * values[ray + RAY.perHeight];
          thick = values[ray + RAY.thick];
          here = thick * (1 - offV * offV);
          middle = values[ray + RAY.middle];
        }
        const off = at - column - middle;
        if (Math.abs(off) - reach >= here) continue;
        const offU = (length - stretch - values[ray + RAY.centre]) * values[ray + RAY.perLength];
        const half = here - thick * offU * offU;
        const within = Math.min(half, off + reach) - Math.max(-half, off - reach);
        if (half <= 0 || within <= 0) continue;
        const cover = (within / (2 * reach)) * values[ray + RAY.strength] * strength;
        const across = Math.max(-1, Math.min(1, off / half));
        const silk = cover * flat;
        const hidden = Math.min(silk, 1);
        tone[k] += hidden * 0.75 * (0.16 - tone[k]);
        light[k] += silk * (0.09 + 0.06 * across) - cover * (1 - flat) * 0.14;
        pore[k] *= 1 - 0.85 * hidden;
      }
    }
  }
}
