import { smoothstep } from 'tenter';
import type { Knot } from './knots.ts';
import type { Piece } from './piece.ts';
import type { RowRange } from './ring-pass.ts';
import type { RowScratch } from './scratch.ts';

/** How far the picture of a knot reaches, in its own sizes. */
const REACH = 1.35;

/** Draws the knots that a row crosses: their own rings round their own pith, and a dark rim. */
export function knotPass(piece: Piece, range: RowRange, v: number, row: RowScratch): void {
  for (const knot of piece.knots) {
    if (Math.abs(v - knot.v) < REACH * knot.size * knot.slender) drawRow(knot, range, v, row);
  }
}

function drawRow(knot: Knot, { origin, i0, i1, mmU, offsetU }: RowRange, v: number, row: RowScratch): void {
  const { tone, light, pore } = row;
  const reach = REACH * knot.size;
  const from = Math.max(i0, Math.ceil((knot.u - reach + offsetU) / mmU - 0.5));
  const to = Math.min(i1, Math.ceil((knot.u + reach + offsetU) / mmU - 0.5));
  const dv = (v - knot.v) / (knot.size * knot.slender);
  const { turn, lean, third, isDead, checks } = characterOf(knot.seed);
  const rings = knot.size / 0.8;
  const ringSpan = (mmU / knot.size) * rings;
  const pixel = mmU / knot.size;
  for (let i = from; i < to; i++) {
    const du = ((i + 0.5) * mmU - offsetU - knot.u) / knot.size;
    const r = Math.sqrt(du * du + dv * dv) + 1e-6;
    const [c, s] = [du / r, dv / r];
    // Low harmonics of the angle make it a knot and not a disc.
    const two = c * c - s * s;
    const three = 3 * c * c * s - s * s * s;
    const five = s * (16 * s * s * s * s - 20 * s * s + 5);
    const lobes = 0.14 * turn * two + 0.1 * lean * three + 0.05 * third * five;
    const rho = r * (1 + lobes);
    const inside = smoothstep((1.1 - rho) / 0.16);
    if (inside === 0) continue;
    const k = i - origin;
    // The knot's own pith stands off its middle, and its rings crowd on one side.
    const own = rho + 0.25 * rho * (1 - rho) * (c * turn + s * lean);
    const x = own * rings + 0.3 * third * two;
    const line = (sawtoothSum(x + ringSpan / 2) - sawtoothSum(x - ringSpan / 2)) / ringSpan - 0.5;
    const rim = smoothstep((rho - 0.72) / 0.3) * smoothstep((1.12 - rho) / 0.14);
    const heart = smoothstep((0.2 - own) / 0.18);
    const bark = rim * rim * (isDead ? 1 : 0.35 + 0.45 * turn * c + 0.2 * three);
    const dark = 1.02 + 0.3 * line * (0.7 + 0.5 * two * turn) + 0.2 * rho * rho + 0.75 * bark + 0.4 * heart;
    tone[k] += inside * (dark - tone[k]);
    light[k] += inside * (0.95 - 0.1 * bark - light[k]);
    pore[k] *= 1 - inside;
    for (const angle of checks) {
      const across = Math.abs(du * angle.s - dv * angle.c);
      const along = du * angle.c + dv * angle.s;
      const width = 0.016 * (1 - along / angle.reach);
      if (along <= 0 || width <= 0) continue;
      const cover = Math.min(1, Math.max(0, (width - across) / pixel + 0.5)) * Math.min(1, width / pixel);
      pore[k] += 0.6 * cover;
    }
  }
}

/** What sets one knot apart, each in -1..1, and the checks that drying tore from its pith. */
function characterOf(seed: number) {
  const part = (shift: number) => ((seed >>> shift) & 255) / 127.5 - 1;
  // A check runs through the pith, one arm longer than the other and a little askew.
  const angle = Math.PI * part(8);
  const arm = (turned: number, reach: number) => ({ c: Math.cos(turned), s: Math.sin(turned), reach });
  const isChecked = ((seed >>> 24) & 1) === 1;
  const checks = isChecked
    ? [arm(angle, 0.6 + 0.25 * part(16)), arm(angle + Math.PI + 0.35 * part(0), 0.38 - 0.2 * part(16))]
    : [];
  return { turn: part(0), lean: part(8), third: part(16), isDead: (seed >>> 26) % 4 === 0, checks };
}

/** Integral of x - floor(x). */
function sawtoothSum(x: number): number {
  const whole = Math.floor(x);
  const f = x - whole;
  return whole / 2 + (f * f) / 2;
}
