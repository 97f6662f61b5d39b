import { hashUnit } from 'tenter';

/** How many rays a grain has, at least, and up to how many more. */
const FEWEST = 12;
const MORE = 10;
/** Half the width of a ray at its foot, as a share of the room it has. */
const HALF_WIDTH = 0.62;
/** The shortest ray beside the longest. */
const SHORTEST = 0.3;

/**
 * How far a grain's brine ran in a direction, beside its other directions: 0 in a notch between the rays, 1
 * along the longest. No two grains have the same rays, and none are evenly spaced or of one length.
 *
 * @param grain Any whole number.
 * @param angle Radians.
 */
export function rayAt(grain: number, angle: number): number {
  const count = FEWEST + Math.floor(MORE * hashUnit(grain, -1, 0));
  const place = (angle / (2 * Math.PI)) * count;
  const knot = Math.floor(place);
  let longest = 0;
  for (let near = knot - 1; near < knot + 2; near++) {
    const number = ((near % count) + count) % count;
    const off = (place - near - 0.2 - 0.6 * hashUnit(grain, number, 1)) / HALF_WIDTH;
    if (off * off >= 1) continue;
    const length = SHORTEST + (1 - SHORTEST) * hashUnit(grain, number, 2);
    longest = Math.max(longest, length * (1 - off * off) ** 1.1);
  }
  return longest;
}
