import {
  type Band,
  type FractalNoise,
  type HomePart,
  SHARE_LAST,
  SHARE_MIDDLE,
  SHARE_SCALE,
  SHARES,
  visitCopies,
} from 'tenter';
import type { Dab } from './dabs.ts';
import { FACE_SCALE, type Face } from './face.ts';
import type { SpongeModel } from './model.ts';

/** One copy of a dab as it lies over a part of a band. */
export interface Touch {
  readonly dab: Dab;
  /** mm, the middle of the copy. */
  readonly x: number;
  readonly y: number;
}

/** Beyond this share of its half the sponge does not touch. */
const RIM = 1.12;
/** How much lobes raise and lower the face, how fast it rises from the paper at the rim. */
const LOBE_HEIGHT = 0.45;
const FALL = 6.5;
const FLAT = 0.6;
/** How far the paper's grain may rise, in deviations of the face. */
const MOST_GRAIN = 0.7;
/** How much fuller the sponge is in its lobes than between them, per deviation. */
const POOLED = 0.05;

/** Dabs over a part in the order in which they were made; copies of one from left to right. */
export function touchesIn({ dabs, lattice }: SpongeModel, part: HomePart, band: Band): Touch[] {
  const { mmPerPixelX, mmPerPixelY } = band;
  const touches: Touch[] = [];
  for (const dab of dabs) {
    const reach = 1.001 * RIM * Math.max(dab.halfU, dab.halfV);
    const around = {
      left: part.x * mmPerPixelX - reach,
      right: (part.x + part.width) * mmPerPixelX + reach,
      top: part.y * mmPerPixelY - reach,
      bottom: (part.y + part.height) * mmPerPixelY + reach,
    };
    visitCopies(lattice, dab.x, dab.y, around, (x, y) => touches.push({ dab, x, y }));
  }
  return touches;
}

/** Entries of `amounts` per deviation of the face; the first is for faces so far above the paper. */
export const AMOUNT_STEPS = 48;
export const AMOUNT_REACH = 1;
export const AMOUNT_LAST = AMOUNT_STEPS * (AMOUNT_REACH + 3);

/** How a part is pressed on: the face at the right fineness, and what pixels of this size hide of it. */
export interface Pressing {
  /** The paper's grain as these pixels show it. */
  readonly tooth: FractalNoise;
  readonly face: Face;
  readonly lobes: Face;
  readonly facePerMm: number;
  readonly lobesPerMm: number;
  /** Standard deviation of what a pixel hides. */
  readonly softness: number;
  /** Pixels from knot to knot. */
  readonly stride: number;
  /** Paint per share by how deep the face lies: more at the edges of a mark. */
  readonly amounts: Float32Array;
}

/** A row's paint so far: how much shows, and how much of that is of the second colour. */
export interface PaintRow {
  readonly amount: Float32Array;
  readonly second: Float32Array;
}

/** A row of a dab on its own plane: u and v of pixel 0 of the box, mm, and what they gain from pixel to pixel. */
interface Line {
  readonly u0: number;
  readonly v0: number;
  readonly du: number;
  readonly dv: number;
}

function lineOf({ dab, x, y }: Touch, rowY: number, mmPerPixel: number): Line {
  const dx = 0.5 * mmPerPixel - x;
  const dy = rowY - y;
  return {
    u0: dx * dab.cos + dy * dab.sin,
    v0: dab.side * (dy * dab.cos - dx * dab.sin),
    du: mmPerPixel * dab.cos,
    dv: -dab.side * mmPerPixel * dab.sin,
  };
}

/** The pixels at which a line crosses the ellipse u^2 / halfU^2 + v^2 / halfV^2 = RIM^2; NaN where it misses. */
function chordOf({ halfU, halfV }: Dab, { u0, v0, du, dv }: Line): readonly [number, number] {
  const square = (du / halfU) ** 2 + (dv / halfV) ** 2;
  const middle = -((u0 * du) / halfU ** 2 + (v0 * dv) / halfV ** 2) / square;
  const nearest = ((u0 + middle * du) / halfU) ** 2 + ((v0 + middle * dv) / halfV) ** 2;
  const half = Math.sqrt((RIM * RIM - nearest) / square);
  return [middle - half, middle + half];
}

/** What lies between two knots changes evenly: `press` in entries of `SHARES`, and the paint. */
interface Knot {
  press: number;
  load: number;
}

/** How hard the sponge presses at (u, v) but for its pores, and how full it is there. */
function knotAt(
  { dab }: Touch,
  { lobes, lobesPerMm, softness }: Pressing,
  u: number,
  v: number,
  to: Knot,
): void {
  const [p, q] = [u / dab.halfU, v / dab.halfV];
  const hill = heightAt(
    lobes,
    (u * lobesPerMm) / lobes.side + dab.cutV,
    (v * lobesPerMm) / lobes.side + dab.cutU,
  );
  const out = Math.max(0, p * p + q * q - FLAT);
  const height = dab.press + dab.tiltU * p + dab.tiltV * q + LOBE_HEIGHT * hill - FALL * out;
  to.press = (height * SHARE_SCALE) / softness + SHARE_MIDDLE;
  to.load = dab.load + POOLED * hill;
}

/** The height of a face, in deviations, straight between the four nearest; s and t in whole faces. */
function heightAt({ heights, side }: Face, s: number, t: number): number {
  const x = (s - Math.floor(s)) * side;
  const y = (t - Math.floor(t)) * side;
  const i = Math.floor(x);
  const j = Math.floor(y);
  const mask = side - 1;
  const at = (column: number, row: number) => heights[(column & mask) + (row & mask) * side];
  const top = at(i, j) + (at(i + 1, j) - at(i, j)) * (x - i);
  const bottom = at(i, j + 1) + (at(i + 1, j + 1) - at(i, j + 1)) * (x - i);
  return (top + (bottom - top) * (y - j)) / FACE_SCALE;
}

/** Written before they are read. */
const before: Knot = { press: 0, load: 0 };
const after: Knot = { press: 0, load: 0 };

/**
 * Presses one row of a dab. All but the pores is worked out at knots, which stand at whole multiples of
 * the stride wherever the row begins.
 *
 * @param x     The row's first pixel, counted from the corner of the box.
 * @param tooth The paper's grain along the row, in deviations of what a pixel hides, from `from` on.
 */
export function pressRow(
  touch: Touch,
  pressing: Pressing,
  y: number,
  x: number,
  count: number,
  mmPerPixel: number,
  tooth: Float32Array,
  from: number,
  row: PaintRow,
): void {
  const line = lineOf(touch, y, mmPerPixel);
  const [left, right] = chordOf(touch.dab, line);
  const first = Math.max(0, Math.ceil(left - x));
  const last = Math.min(count - 1, Math.floor(right - x));
  // Not so where the row misses the dab, for then both are NaN.
  if (!(first <= last)) return;
  const { stride, softness, face } = pressing;
  const highest = ((face.highest / FACE_SCALE + MOST_GRAIN) * SHARE_SCALE) / softness;
  let knot = Math.floor((x + first) / stride) * stride;
  knotAt(touch, pressing, line.u0 + knot * line.du, line.v0 + knot * line.dv, after);
  for (let n = first; n <= last; ) {
    const next = knot + stride;
    before.press = after.press;
    before.load = after.load;
    knotAt(touch, pressing, line.u0 + next * line.du, line.v0 + next * line.dv, after);
    const end = Math.min(last + 1, Math.ceil(next - x));
    if (Math.max(before.press, after.press) + highest > 0) {
      pressRun(touch.dab, pressing, line, knot, x, n, end, tooth, from, row);
    }
    n = end;
    knot = next;
  }
}

/** Presses the pixels `first` up to `end` of a row, all between the knots `before` and `after`. */
function pressRun(
  dab: Dab,
  { face, facePerMm, softness, amounts, stride }: Pressing,
  { u0, v0, du, dv }: Line,
  knot: number,
  x: number,
  first: number,
  end: number,
  tooth: Float32Array,
  from: number,
  { amount, second }: PaintRow,
): void {
  const { heights, side } = face;
  const mask = side - 1;
  // Far enough from 0 that truncating always rounds down.
  const s0 = u0 * facePerMm + (dab.cutU + 64) * side;
  const t0 = v0 * facePerMm + (dab.cutV + 64) * side;
  const ds = du * facePerMm;
  const dt = dv * facePerMm;
  const scale = SHARE_SCALE / (FACE_SCALE * softness);
  const press = before.press;
  const pressRise = (after.press - press) / stride;
  const load = before.load;
  const loadRise = (after.load - load) / stride;
  const hue = dab.isSecond ? 1 : 0;
  const toAmount = (AMOUNT_STEPS * softness) / SHARE_SCALE;
  const amountStart = AMOUNT_REACH * AMOUNT_STEPS - SHARE_MIDDLE * toAmount;
  const shares = SHARES;
  for (let n = first; n < end; n++) {
    const pixel = x + n;
    const s = s0 + pixel * ds;
    const t = t0 + pixel * dt;
    const i = s | 0;
    const j = t | 0;
    const a = s - i;
    const upper = (j & mask) * side;
    const lower = ((j + 1) & mask) * side;
    const i0 = i & mask;
    const i1 = (i + 1) & mask;
    const top = heights[upper + i0] + (heights[upper + i1] - heights[upper + i0]) * a;
    const bottom = heights[lower + i0] + (heights[lower + i1] - heights[lower + i0]) * a;
    const z =
      press +
      pressRise * (pixel - knot) +
      tooth[from + n] * SHARE_SCALE +
      scale * (top + (bottom - top) * (t - j));
    if (z < 1) continue;
    const entry = z < SHARE_LAST ? z | 0 : SHARE_LAST;
    const deep = z * toAmount + amountStart;
    const amountEntry = deep < 0 ? 0 : deep < AMOUNT_LAST ? deep | 0 : AMOUNT_LAST;
    const own = shares[entry] * Math.min(1, (load + loadRise * (pixel - knot)) * amounts[amountEntry]);
    amount[n] += own * (1 - amount[n]);
    second[n] += own * (hue - second[n]);
  }
}
