import type { Level } from '../way.ts';
import type { Moved } from './even-place.ts';
import type { Join } from './joins.ts';
import type { Quilt } from './quilt.ts';
import { stepping } from './screened.ts';
import { FINE } from './sheet.ts';

/** mm over which a step of tone is spread to either side, as a share of the smaller side of the swatch. */
const SPREAD = 0.3;
/** mm over which tones are compared, as a share of it. */
const TONE = 0.025;
/** The largest step that is evened out, in the logarithm of light: more is figure, not tone. */
const MOST_STEP = 0.35;

/**
 * What the light of each cell is multiplied by so that pieces meet without a step of tone: the field whose own
 * steps at the joins undo theirs and that is as flat as can be elsewhere, in the logarithm of light.
 */
export function evenTone(
  quilt: Quilt,
  joins: readonly Join[],
  moved: Moved,
  level: Level,
  plane: number,
  side: number,
): Float32Array {
  const { mmPerCellX, mmPerCellY } = quilt.shape;
  const toneOf = toneReader(quilt, level, plane);
  const steps = Float64Array.from(joins, (join) => {
    const x = (join.x * mmPerCellX) / FINE;
    const y = (join.y * mmPerCellY) / FINE;
    const own = toneOf(
      join.pose,
      x + (join.ox * mmPerCellX) / FINE + moved.x[join.k],
      y + (join.oy * mmPerCellY) / FINE + moved.y[join.k],
    );
    const other = toneOf(
      join.otherPose,
      x + (join.otherX * mmPerCellX) / FINE + moved.x[join.n],
      y + (join.otherY * mmPerCellY) / FINE + moved.y[join.n],
    );
    return Math.max(-MOST_STEP, Math.min(MOST_STEP, own - other));
  });
  return stepping(quilt.shape, joins, steps, SPREAD * side).map(Math.exp);
}

/** The level by which tones are compared. */
export function toneLevel(levels: readonly Level[], side: number): Level {
  let level = levels[0];
  for (const other of levels) if (other.mmPerSample <= TONE * side) level = other;
  return level;
}

/** The logarithm of light at a place (u, v) mm of a sheet. */
function toneReader(quilt: Quilt, level: Level, plane: number) {
  const values = level.planes[plane];
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const log = values.map((value) => Math.log(Math.max(value, 0) + 0.05 * mean + 1e-6));
  return (pose: number, u: number, v: number) => {
    const { xu, xv, yu, yv, x0, y0 } = quilt.sheets[pose].pose;
    const s = (xu * u + xv * v + x0) / level.mmPerSample - 0.5;
    const t = (yu * u + yv * v + y0) / level.mmPerSample - 0.5;
    const i = Math.max(0, Math.min(level.width - 2, Math.floor(s)));
    const j = Math.max(0, Math.min(level.height - 2, Math.floor(t)));
    const p = Math.min(1, Math.max(0, s - i));
    const q = Math.min(1, Math.max(0, t - j));
    const k = i + j * level.width;
    const right = level.width > 1 ? 1 : 0;
    const down = level.height > 1 ? level.width : 0;
    const above = log[k] + (log[k + right] - log[k]) * p;
    const below = log[k + down] + (log[k + down + right] - log[k + down]) * p;
    return above + (below - above) * q;
  };
}
