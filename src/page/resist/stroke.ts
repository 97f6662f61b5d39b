import { Fault } from '../../fault.ts';
import type { Stroke } from '../words/work.ts';

/** Of a brush, mm. */
export const BRUSH_WIDTH = { least: 0.2, most: 2000 } as const;
/** As far from the tile as anybody moves a cloth, mm. */
const FURTHEST = 1e6;

/**
 * Refuses a stroke that nobody can have made.
 *
 * @throws Fault (input) for a width outside 0.2 mm to 2 m, a softness or pressure outside 0..1, or points that
 *   are not whole threes of numbers within a kilometre.
 */
export function requireStroke({ width, softness, points }: Stroke): void {
  if (!(width >= BRUSH_WIDTH.least && width <= BRUSH_WIDTH.most))
    throw refused(`a width from ${BRUSH_WIDTH.least} to ${BRUSH_WIDTH.most} mm`, `${width}`);
  if (!(softness >= 0 && softness <= 1)) throw refused('a softness from 0 to 1', `${softness}`);
  requirePoints(points);
}

/** @throws Fault (input) as `requireStroke` does for its points. */
export function requirePoints(points: readonly number[]): void {
  if (points.length % 3 !== 0)
    throw refused('three numbers a point: x, y and pressure', `${points.length} numbers`);
  for (let at = 0; at < points.length; at += 3) {
    const [x, y, pressure] = [points[at], points[at + 1], points[at + 2]];
    if (!(Math.abs(x) <= FURTHEST && Math.abs(y) <= FURTHEST && pressure >= 0 && pressure <= 1))
      throw refused(
        `points within ${FURTHEST} mm of the tile, and pressures from 0 to 1`,
        `${x}, ${y}, ${pressure}`,
      );
  }
}

function refused(expected: string, received: string): Fault {
  return new Fault({
    kind: 'input',
    expected,
    subject: 'a stroke of the brush',
    received,
    remedy: 'Lay the stroke anew.',
  });
}
