import type { RandomStream } from 'tenter';

/** A crease: places some mm apart, and how sharply it is creased at each, about 0..1. Plain data; mm. */
export interface Crease {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly depths: readonly number[];
  /** Half of the band along it that stands up and is worn, mm. */
  readonly half: number;
}

/** How creases of one kind run. */
export interface CreaseHabit {
  /** mm from place to place. */
  readonly step: number;
  /** How much the way turns per step, radians, standard deviation. */
  readonly turn: number;
  /** How often per step it kinks, and how far, radians. */
  readonly kinks: number;
  readonly kink: number;
  /** How often a kink sends out a branch. */
  readonly branches: number;
}

/** Where a crease begins, and how it sets out. */
export interface CreaseStart {
  readonly x: number;
  readonly y: number;
  /** Radians. */
  readonly heading: number;
  readonly length: number;
  readonly depth: number;
  readonly half: number;
}

/** Branches of branches are as far as it goes. */
const MOST_FORKS = 2;

/**
 * Runs a crease out from its start to both sides, and its branches. A fold of stiff sheet is straight for a
 * while, kinks and sends out a weaker one there; it ends by growing faint, or where it meets another.
 *
 * @param isTaken Whether another crease lies at a place: there this one ends.
 */
export function runCrease(
  start: CreaseStart,
  habit: CreaseHabit,
  isTaken: (x: number, y: number) => boolean,
  random: RandomStream,
): Crease[] {
  const found: Crease[] = [];
  const open = [
    { ...start, forks: 0 },
    { ...start, heading: start.heading + Math.PI, forks: 0 },
  ];
  for (let at = open.shift(); at; at = open.shift()) {
    const run = runOut(at, habit, isTaken, random);
    if (run.crease.xs.length > 1) found.push(run.crease);
    if (at.forks >= MOST_FORKS) continue;
    for (const fork of run.forks) open.push({ ...fork, forks: at.forks + 1 });
  }
  return found;
}

function runOut(
  { x, y, heading, length, depth, half }: CreaseStart,
  { step, turn, kinks, kink, branches }: CreaseHabit,
  isTaken: (x: number, y: number) => boolean,
  random: RandomStream,
) {
  const xs = [x];
  const ys = [y];
  const depths = [depth];
  const forks: CreaseStart[] = [];
  const steps = Math.max(1, Math.round(length / 2 / step));
  let way = heading;
  for (let k = 1; k <= steps; k++) {
    // It comes back to the way that it set out on.
    way += turn * random.normal() - 0.1 * (way - heading);
    const isKink = random.next() < kinks;
    const side = random.next() < 0.5 ? -1 : 1;
    const forked = random.next() < branches;
    const openness = random.between(0.45, 1.15);
    const share = random.between(0.15, 0.6);
    if (isKink) way += side * kink;
    const nextX = xs[k - 1] + step * Math.cos(way);
    const nextY = ys[k - 1] + step * Math.sin(way);
    const isMet = k > 3 && isTaken(nextX, nextY);
    const left = 1 - k / steps;
    const faint = isMet ? 0.9 : Math.min(1, 2.2 * left) ** 0.7;
    xs.push(nextX);
    ys.push(nextY);
    depths.push(depth * faint);
    if (isMet) break;
    if (isKink && forked) {
      forks.push({
        x: nextX,
        y: nextY,
        heading: way - side * openness,
        length: 2 * share * length * (0.3 + 0.7 * left),
        depth: 0.75 * depth * faint,
        half: 0.75 * half,
      });
    }
  }
  return { crease: { xs, ys, depths, half }, forks };
}
