import { type Box, type FractalNoise, fractalAt, shortestWay } from 'tenter';
import type { Drop } from './drop.ts';
import { ANGLES, directionOf, type Outlines } from './turn.ts';

/** mm; smaller drops fall into larger ones and do not stop them. */
const LEAST = 1.4;
/** Of two drops the smaller is at least this share of the larger, and both fell within this part of the drying. */
const MOST_UNLIKE = 0.3;
const TOGETHER = 0.45;
/** A drop that was reached into farther than this share of its radius was overrun instead. */
const OVERRUN = 0.3;
/** mm: half the wall of paint that is pinched between two drops, and how far it winds. */
const HALF_WALL = 0.28;
const WINDING = 0.08;
/** How often corners are rounded, each time by half a step of the outline. */
const ROUNDS = 14;
/** How sharply an outline turns where it meets a wall, as the power of a soft minimum. */
const SHARPNESS = 5;

/**
 * Drops that open side by side while both are wet push one another: neither passes where the two are equally strong,
 * the line from which the tangents to both are as long (as between two bubbles), and they share that wall. A radial map
 * keeps its paint whatever its outline, so nothing is lost by it.
 *
 * @param winding Lets walls wind; of standard deviation 1.
 */
export function pressTogether(
  box: Box,
  drops: readonly Drop[],
  { radius: radii, widest }: Outlines,
  winding: FractalNoise,
): void {
  const large = drops.flatMap(({ radius }, k) => (radius >= LEAST ? [k] : []));
  for (const k of large) {
    const walls = large.flatMap((other) =>
      other === k ? [] : (wallBetween(box, drops[k], drops[other], k < other) ?? []),
    );
    if (walls.length === 0) continue;
    for (let angle = 0; angle < ANGLES; angle++) {
      const at = k * ANGLES + angle;
      const [dx, dy] = directionOf((4 * angle) / ANGLES);
      let sum = radii[at] ** -SHARPNESS;
      for (const { x, y, away, sign } of walls) {
        const toward = dx * x + dy * y;
        if (toward < 0.05) continue;
        const straight = away / toward;
        if (straight > 2 * radii[at]) continue;
        const strayed = sign * WINDING * drops[k].radius;
        const bend = strayed * fractalAt(winding, drops[k].x + straight * dx, drops[k].y + straight * dy);
        sum += Math.max(0.3 * drops[k].radius, straight - HALF_WALL + bend) ** -SHARPNESS;
      }
      radii[at] = sum ** (-1 / SHARPNESS);
    }
    roundCorners(radii.subarray(k * ANGLES, (k + 1) * ANGLES));
    widest[k] = radii.subarray(k * ANGLES, (k + 1) * ANGLES).reduce((most, radius) => Math.max(most, radius));
  }
}

/** Surface tension rounds the corners between walls. */
function roundCorners(radii: Float32Array): void {
  for (let round = 0; round < ROUNDS; round++) {
    const before = radii.slice();
    for (let k = 0; k < ANGLES; k++) {
      radii[k] = 0.25 * (before[(k + ANGLES - 1) % ANGLES] + 2 * before[k] + before[(k + 1) % ANGLES]);
    }
  }
}

interface Wall {
  /** The way to it, of length 1. */
  readonly x: number;
  readonly y: number;
  /** mm */
  readonly away: number;
  /** To which side it winds for this drop; for the other it is the other way. */
  readonly sign: 1 | -1;
}

function wallBetween(box: Box, drop: Drop, other: Drop, isFirst: boolean): Wall | undefined {
  const [a, b] = [drop.radius, other.radius];
  if (Math.min(a, b) < MOST_UNLIKE * Math.max(a, b) || Math.abs(drop.time - other.time) > TOGETHER)
    return undefined;
  const [dx, dy] = shortestWay(box.lattice, other.x - drop.x, other.y - drop.y);
  const distance = Math.hypot(dx, dy);
  if (distance > 1.12 * (a + b) || distance < 0.85 * Math.max(a, b)) return undefined;
  const away = (distance * distance + a * a - b * b) / (2 * distance);
  if (away < OVERRUN * a || distance - away < OVERRUN * b) return undefined;
  return { x: dx / distance, y: dy / distance, away, sign: isFirst ? 1 : -1 };
}
