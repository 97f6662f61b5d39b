import type { RandomStream } from 'tenter';
import type { CrackMap, Near } from './crack-map.ts';
import type { Crumple } from './crumple.ts';

/** A crack as it grew, mm on the unwrapped plane. */
export interface Crack {
  /** 0 for main cracks, 1 and 2 for finer ones, 3 for twigs, 4 for hairs. */
  readonly rank: number;
  readonly xs: number[];
  readonly ys: number[];
  /** Whether its first and last vertex lie on another crack. */
  isJoinedAtStart: boolean;
  isJoinedAtEnd: boolean;
}

/** How cracks of a rank grow. */
export interface Habit {
  readonly rank: number;
  /** mm from vertex to vertex. */
  readonly step: number;
  /** mm at most, each way. */
  readonly reach: number;
  /** How far ahead a crack feels another, mm. */
  readonly sight: number;
  /** Standard deviation of the turn per root of a mm, radians. */
  readonly wander: number;
  /** Sudden turns per mm. */
  readonly kinks: number;
  /** How strongly folds turn it, per mm. */
  readonly obedience: number;
  /** Chance of running on through another crack. */
  readonly crossing: number;
}

export interface Growth {
  readonly map: CrackMap;
  readonly crumple: Crumple;
  readonly random: RandomStream;
  readonly near: Near;
}

/** A crack never meets what it left less than this far behind, in steps. */
const OWN_STEPS = 9;

/**
 * One way of a crack from (x, y) on, step by step. Tension across a crack is relieved, tension along it is
 * not: so another that comes near turns to meet it at a right angle (Bohn, Pauchard and Couder,
 * *Hierarchical crack pattern as formed by successive domain divisions*, 2005), and ends there.
 *
 * @param crack  Number of the crack, for those that meet it later.
 * @param parent Crack that it starts from, not felt at first; -1 for none.
 * @returns Vertices after the first, and whether the last lies on another crack.
 */
export function growOneWay(
  growth: Growth,
  habit: Habit,
  crack: number,
  parent: number,
  x: number,
  y: number,
  heading: number,
): { readonly xs: number[]; readonly ys: number[]; readonly isJoined: boolean } {
  const { map, crumple, random, near } = growth;
  const { step, sight } = habit;
  const xs: number[] = [];
  const ys: number[] = [];
  let turn = 0;
  let crossed = -1;
  let blindUntil = 0;
  for (let along = step; along <= habit.reach; along += step) {
    turn = 0.82 * turn + habit.wander * Math.sqrt(step) * 0.57 * random.normal();
    heading += turn;
    if (random.next() < habit.kinks * step) heading += 0.5 * random.normal();
    if (habit.obedience > 0) {
      heading += habit.obedience * step * Math.sin(2 * (crumple.foldAt(x, y) - heading));
    }
    const isBlind = (vertex: number) => {
      const other = map.crack[vertex];
      if (other === crack) return Math.abs(along - map.along[vertex]) < OWN_STEPS * step;
      return (other === parent && along < 2 * step) || (other === crossed && along < blindUntil);
    };
    map.nearest(x, y, sight, near, isBlind);
    if (near.vertex >= 0) {
      const ahead = Math.atan2(near.dy, near.dx) - heading;
      const off = Math.atan2(Math.sin(ahead), Math.cos(ahead));
      if (Math.abs(off) < 1.9) {
        if (near.distance < 1.3 * step) {
          if (random.next() < habit.crossing) {
            crossed = map.crack[near.vertex];
            blindUntil = along + 2.5 * sight;
          } else {
            xs.push(x + near.dx);
            ys.push(y + near.dy);
            return { xs, ys, isJoined: true };
          }
        } else {
          heading += 0.8 * off * (1 - near.distance / sight);
        }
      }
    }
    x += step * Math.cos(heading);
    y += step * Math.sin(heading);
    xs.push(x);
    ys.push(y);
  }
  return { xs, ys, isJoined: false };
}
