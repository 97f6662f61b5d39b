import { type Band, type HomePart, SHARE_LAST, SHARE_MIDDLE, SHARE_SCALE, SHARES, visitCopies } from 'tenter';
import type { BrushModel, Stroke, TrackTables } from './model.ts';
import { WET_SCALE } from './tracks.ts';

/** Wetness beyond which paint lies no thinner or thicker. */
const THINNEST = -0.8;
const THICKEST = 2.6;

/** One copy of a stroke as it lies over a part of a band. */
export interface Drag {
  readonly stroke: Stroke;
  /** mm, the middle of the copy. */
  readonly x: number;
  readonly y: number;
  readonly mmPerPixel: number;
  readonly wet: Int8Array;
  readonly start: number;
  readonly columns: number;
  readonly rows: number;
  readonly perAlong: number;
  readonly perAcross: number;
  /** Of a wetness in the table, in entries of `SHARES`. */
  readonly scale: number;
  /** Load where hairs are just wet enough, and how much it gains by the table's unit of wetness. */
  readonly load: number;
  readonly rise: number;
}

/** mm by which strokes are looked for beyond their reach, so that rounding loses none. */
const SPARE = 0.01;

/** Strokes over a part, in the order in which they were laid; copies of one stroke from left to right. */
export function dragsIn(
  model: BrushModel,
  tables: TrackTables,
  part: HomePart,
  band: Band,
  softness: number,
): Drag[] {
  const { strokes, lattice, variation, gain } = model;
  const { mmPerPixelX, mmPerPixelY } = band;
  const drags: Drag[] = [];
  strokes.forEach((stroke, k) => {
    const halfU = stroke.length / 2 + SPARE;
    const halfV = stroke.width / 2 + stroke.sag + SPARE;
    const reachX = halfU * Math.abs(stroke.cos) + halfV * Math.abs(stroke.sin);
    const reachY = halfU * Math.abs(stroke.sin) + halfV * Math.abs(stroke.cos);
    const around = {
      left: part.x * mmPerPixelX - reachX,
      right: (part.x + part.width) * mmPerPixelX + reachX,
      top: part.y * mmPerPixelY - reachY,
      bottom: (part.y + part.height) * mmPerPixelY + reachY,
    };
    visitCopies(lattice, stroke.x, stroke.y, around, (x, y) => {
      drags.push({
        stroke,
        x,
        y,
        mmPerPixel: mmPerPixelX,
        wet: tables.wet,
        start: tables.starts[k],
        columns: tables.columns[k],
        rows: tables.rows[k],
        perAlong: 1 / tables.along,
        perAcross: 1 / tables.across,
        scale: SHARE_SCALE / (WET_SCALE * softness),
        load: gain * (1 + variation * (0.11 * stroke.body - 0.06)),
        rise: (gain * variation * 0.11) / WET_SCALE,
      });
    });
  });
  return drags;
}

/**
 * Lays one row of a stroke over what lies there: paint covers paint.
 *
 * @param x     The row's first pixel, counted from the corner of the box.
 * @param tooth The paper's grain along the row, in deviations of what a pixel hides, from `from` on.
 * @param load  Receives the row from `at` on.
 */
export function dragRow(
  drag: Drag,
  y: number,
  x: number,
  count: number,
  tooth: Float32Array,
  from: number,
  load: Float32Array,
  at: number,
): void {
  const { stroke, wet, start, perAlong, perAcross, scale, rise, mmPerPixel } = drag;
  const { cos, sin } = stroke;
  const [c0, c1, c2, c3] = stroke.curve;
  const columns = drag.columns | 0;
  const dy = y - drag.y;
  // u and v of the pixel whose number is 0, and what they gain from pixel to pixel.
  const u0 = (0.5 * mmPerPixel - drag.x) * cos + dy * sin;
  const v0 = dy * cos - (0.5 * mmPerPixel - drag.x) * sin;
  const du = mmPerPixel * cos;
  const dv = -mmPerPixel * sin;
  const halfU = stroke.length / 2;
  const halfV = stroke.width / 2 + stroke.sag;
  const [first, last] = overlap(spanOf(u0, du, halfU), spanOf(v0, dv, halfV), x, count);
  const toRow = halfU * perAlong + 0.5;
  const toColumn = (stroke.width / 2) * perAcross + 0.5;
  const lastColumn = columns - 1;
  const lastRow = drag.rows - 1;
  const base = drag.load;
  const shares = SHARES;
  const least = THINNEST * WET_SCALE;
  const most = THICKEST * WET_SCALE;
  for (let n = first; n <= last; n++) {
    const pixel = x + n;
    const u = u0 + pixel * du;
    const t = (v0 + pixel * dv - (c0 + u * (c1 + u * (c2 + u * c3)))) * perAcross + toColumn;
    if (!(t >= 0 && t < lastColumn)) continue;
    const s = u * perAlong + toRow;
    if (!(s >= 0 && s < lastRow)) continue;
    const j = s | 0;
    const i = t | 0;
    const f = t - i;
    const g = s - j;
    const k = start + j * columns + i;
    const upper = wet[k] + (wet[k + 1] - wet[k]) * f;
    const lower = wet[k + columns] + (wet[k + columns + 1] - wet[k + columns]) * f;
    const wetness = upper + (lower - upper) * g;
    let entry = (wetness * scale + tooth[from + n] * SHARE_SCALE + SHARE_MIDDLE) | 0;
    if (entry <= 0) continue;
    if (entry > SHARE_LAST) entry = SHARE_LAST;
    const place = at + n;
    load[place] += shares[entry] * (base + rise * Math.max(least, Math.min(wetness, most)) - load[place]);
  }
}

/** The pixels at which a coordinate lies within `half` of 0: first and last, not yet whole. */
function spanOf(start: number, step: number, half: number): [number, number] {
  if (Math.abs(step) < 1e-12) {
    return Math.abs(start) <= half
      ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
      : [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  }
  const a = (-half - start) / step;
  const b = (half - start) / step;
  return a < b ? [a, b] : [b, a];
}

/** Counted from pixel `x`: the first and last of `count` pixels that lie in both spans. */
function overlap(
  [a, b]: [number, number],
  [c, d]: [number, number],
  x: number,
  count: number,
): [number, number] {
  return [Math.max(0, Math.ceil(Math.max(a, c) - x)), Math.min(count - 1, Math.floor(Math.min(b, d) - x))];
}
