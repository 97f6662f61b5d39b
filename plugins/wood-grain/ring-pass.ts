import type { WoodModel } from './model.ts';
import type { Piece } from './piece.ts';
import type { RowScratch } from './scratch.ts';
import type { SheetLevel } from './sheet.ts';

/** A row of pixels of one piece. */
export interface RowRange {
  /** The pixel of the box at index 0 of the pixel rows. */
  readonly origin: number;
  /** Pixels of the box, i0 <= i < i1. */
  readonly i0: number;
  readonly i1: number;
  readonly mmU: number;
  readonly mmV: number;
  /** mm from the box to the piece. */
  readonly offsetU: number;
}

/** mm of radius over which even the sharpest edge of a ring is spread. */
const SHARPEST = 0.03;

/**
 * Tone and lightness along a row: the radius by a cubic per node, displaced by the fibres, looked up
 * in the running integral over the radii that the pixel spans.
 *
 * @param firstCell The fibre cell at index 0 of the row's fibres.
 */
export function ringPass(
  model: WoodModel,
  piece: Piece,
  range: RowRange,
  row: RowScratch,
  sheet: SheetLevel,
  firstCell: number,
): void {
  const { grid } = piece;
  const { i0, i1, mmU, mmV, offsetU } = range;
  const first = range.origin;
  const { tone, light, streak, jitter } = row;
  const { integral, perMm, from } = model.rings;
  const { look } = model;
  const { fibre, fibreTone } = look;
  const fibreShift = look.jitter;
  const scale = mmU * grid.perMmU;
  const origin = (-offsetU - grid.u0) * grid.perMmU;
  const cellScale = mmU / sheet.cellU;
  const cellOrigin = (piece.detailU - offsetU) / sheet.cellU - sheet.lead;
  const perCell = 1 / sheet.cellU;
  const last = integral.length - 2;
  const tableFrom = from * perMm;
  const endOf = (c: number) => Math.ceil((c + 1 - origin) / scale - 0.5);
  let c = Math.floor((i0 + 0.5) * scale + origin);
  while (endOf(c) <= i0) c++;
  while (endOf(c - 1) > i0) c--;
  for (let i = i0; i < i1; c++) {
    const end = Math.min(i1, endOf(c));
    const n = Math.max(1, Math.min(grid.columns - 3, c));
    const [p, q, r, s] = [row.radius[n - 1], row.radius[n], row.radius[n + 1], row.radius[n + 2]];
    const a0 = (p + 4 * q + r) / 6;
    const a1 = (r - p) / 2;
    const a2 = (p - 2 * q + r) / 2;
    const a3 = (s - p + 3 * (q - r)) / 6;
    const v0 = mmV * ((row.climb[n - 1] + 4 * row.climb[n] + row.climb[n + 1]) / 6);
    const v1 = mmV * ((row.climb[n] + 4 * row.climb[n + 1] + row.climb[n + 2]) / 6) - v0;
    const w0 = (row.wash[n - 1] + 4 * row.wash[n] + row.wash[n + 1]) / 6;
    const w1 = (row.wash[n] + 4 * row.wash[n + 1] + row.wash[n + 2]) / 6 - w0;
    const d0 = ((row.drift[n - 1] + 4 * row.drift[n] + row.drift[n + 1]) / 6) * perCell;
    const d1 = ((row.drift[n] + 4 * row.drift[n + 1] + row.drift[n + 2]) / 6) * perCell - d0;
    const shift = cellOrigin + d0;
    for (; i < end; i++) {
      const middle = i + 0.5;
      const t = middle * scale + origin - n;
      const x = middle * cellScale + shift + t * d1;
      const whole = Math.floor(x);
      const share = x - whole;
      const cell = whole - firstCell;
      const j = jitter[cell];
      const f = streak[cell];
      const late = j + share * (jitter[cell + 1] - j);
      const streaked = f + share * (streak[cell + 1] - f);
      const radius = a0 + t * (a1 + t * (a2 + t * a3)) + fibreShift * late;
      const slopeU = scale * (a1 + t * (2 * a2 + 3 * t * a3));
      const slopeV = v0 + t * v1;
      const span = Math.sqrt(slopeU * slopeU + slopeV * slopeV + SHARPEST * SHARPEST) * perMm;
      const centre = radius * perMm - tableFrom;
      let low = centre - 0.5 * span;
      let high = centre + 0.5 * span;
      if (low < 0) low = 0;
      if (high > last) high = last;
      const kl = low | 0;
      const kh = high | 0;
      const il = integral[kl];
      const ih = integral[kh];
      const sum = ih - il + (high - kh) * (integral[kh + 1] - ih) - (low - kl) * (integral[kl + 1] - il);
      const k = i - first;
      tone[k] = ((sum * perMm) / span) * (1 + fibreTone * streaked);
      light[k] = 1 + w0 + t * w1 + fibre * streaked;
    }
  }
}
