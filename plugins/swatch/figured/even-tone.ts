import { cellIndex, filterField } from 'tenter';
import type { Level } from '../way.ts';
import type { Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';

/** mm over which a step of tone is spread to either side, as a share of the smaller side of the swatch. */
const SPREAD = 0.3;
/** mm over which tones are compared, as a share of it. */
const TONE = 0.025;
/** The largest step that is evened out, as a ratio of light: more is figure, not tone. */
const MOST_STEP = 0.35;

/**
 * What the light of each cell is multiplied by so that pieces meet without a step of tone: the field whose own steps
 * at the joins undo theirs and that is as flat as can be elsewhere, over the torus. P. Perez, M. Gangnet and A. Blake,
 * *Poisson image editing* (2003), in the logarithm of light, and drawn to 1 over a length so that the tones stay
 * those of the swatch (the screened equation of P. Bhat and others, *Fourier analysis of the 2D screened Poisson
 * equation for gradient domain problems*, 2008).
 */
export function evenTone(quilt: Quilt, levels: readonly Level[], plane: number, side: number): Float32Array {
  const { shape, piece } = quilt;
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const toneOf = toneReader(quilt, levels, plane, TONE * side);
  const pull = new Float32Array(piece.length);
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      for (const [ni, nj] of [
        [i + 1, j],
        [i, j + 1],
      ]) {
        const n = cellIndex(shape, ni, nj);
        const hi = n % width;
        const hj = (n - hi) / width;
        const a = piece[k];
        const b = piece[n];
        const bx = quilt.ox[b] + FINE * (hi - ni);
        const by = quilt.oy[b] + FINE * (hj - nj);
        if (quilt.pose[a] === quilt.pose[b] && quilt.ox[a] === bx && quilt.oy[a] === by) continue;
        const x = (FINE * (i + ni + 1)) / 2;
        const y = (FINE * (j + nj + 1)) / 2;
        const step =
          toneOf(quilt.pose[b], x + bx, y + by) - toneOf(quilt.pose[a], x + quilt.ox[a], y + quilt.oy[a]);
        const evened = Math.max(-MOST_STEP, Math.min(MOST_STEP, step));
        pull[k] += evened;
        pull[n] -= evened;
      }
    }
  }
  const cell = Math.sqrt(mmPerCellX * mmPerCellY);
  const flat = (cell / (SPREAD * side)) ** 2;
  const { values } = filterField({ ...shape, values: pull }, (fx, fy) => {
    const across = 2 - 2 * Math.cos(2 * Math.PI * fx * mmPerCellX);
    const down = 2 - 2 * Math.cos(2 * Math.PI * fy * mmPerCellY);
    return 1 / (flat + across + down);
  });
  return values.map(Math.exp);
}

/** The logarithm of light at a place of a sheet in fine samples, as seen over about `mm`. */
function toneReader(quilt: Quilt, levels: readonly Level[], plane: number, mm: number) {
  let level = levels[0];
  for (const other of levels) if (other.mmPerSample <= mm) level = other;
  const values = level.planes[plane];
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const log = values.map((value) => Math.log(Math.max(value, 0) + 0.05 * mean + 1e-6));
  const { mmPerCellX, mmPerCellY } = quilt.shape;
  return (pose: number, fineX: number, fineY: number) => {
    const { xu, xv, yu, yv, x0, y0 } = quilt.sheets[pose].pose;
    const u = (fineX * mmPerCellX) / FINE;
    const v = (fineY * mmPerCellY) / FINE;
    const s = (xu * u + xv * v + x0) / level.mmPerSample - 0.5;
    const t = (yu * u + yv * v + y0) / level.mmPerSample - 0.5;
    const i = Math.min(level.width - 2, Math.max(0, Math.floor(s)));
    const j = Math.min(level.height - 2, Math.max(0, Math.floor(t)));
    const p = Math.min(1, Math.max(0, s - i));
    const q = Math.min(1, Math.max(0, t - j));
    const k = i + j * level.width;
    const above = log[k] + (log[k + 1] - log[k]) * p;
    const below = log[k + level.width] + (log[k + level.width + 1] - log[k + level.width]) * p;
    return above + (below - above) * q;
  };
}
