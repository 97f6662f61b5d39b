import { type Box, shortestVector } from 'tenter';
import { Crowd } from './crowd.ts';
import type { Drop } from './drop.ts';

/**
 * Drops that ran into one another while both were wet make one opening: they share its stain and grain,
 * so that no wall and no step stays where they met. In the order that they opened: broad ones first, for
 * what falls into them dents their edges, while a broad one would draw what lay there out into shards.
 */
export function joinTouching(box: Box, drops: readonly Drop[]): Drop[] {
  const ordered = [...drops].sort((a, b) => orderOf(a) - orderOf(b));
  const groups = touchingGroups(box, ordered);
  return ordered.map((drop, k) => {
    const { stain, grain, softness } = ordered[groups[k]];
    return drop.isApart || groups[k] === k ? drop : { ...drop, stain, grain, softness };
  });
}

/** Halves of the size count as much as the time from the first drop to the last. */
export function orderOf({ radius, time }: Pick<Drop, 'radius' | 'time'>): number {
  return time - Math.log2(radius);
}

/** For each drop the first of those that it touches, directly or by way of others. */
function touchingGroups(box: Box, drops: readonly Drop[]): Int32Array {
  const groups = new Int32Array(drops.length);
  const widest = drops.reduce((most, { radius }) => Math.max(most, radius), 0);
  const crowd = new Crowd(box, Math.min(2 * widest + 0.01, shortestVector(box.lattice)));
  drops.forEach((drop, k) => {
    const touched = drop.radius < LEAST ? -1 : crowd.touched(drop.x, drop.y, drop.radius, OVERLAP);
    groups[k] = touched < 0 ? k : groups[touched];
    if (drop.radius >= LEAST) crowd.add(drop.x, drop.y, drop.radius);
  });
  return groups;
}

/** mm; specks keep to themselves. */
const LEAST = 0.7;
/** How far into one another, as a share of both radii: those that barely touch keep a wall. */
const OVERLAP = 0.06;
