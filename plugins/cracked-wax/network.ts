import type { Box, RandomStream } from 'tenter';
import { CrackMap, nothingNear } from './crack-map.ts';
import { type Crumple, crumpleOf } from './crumple.ts';
import { type Crack, type Growth, growOneWay, type Habit } from './grow.ts';
import type { WaxValues } from './parameters.ts';

/** Spacing of each rank beside that of the main cracks, and no finer than this, mm. */
const RANK_SPACING = [1, 0.46, 0.23] as const;
const LEAST_SPACING = 1.3;
/** mm from crack to crack that brittle wax holds even where it is crushed; closer, all would be dyed. */
const LEAST_ROOM = 0.75;
/** Ranks that do not fill gaps: twigs start from other cracks, hairs run along the folds through all of them. */
const TWIG = 3;
const HAIR = 4;
/** Vertices at most: some hundred metres of crack. */
const MOST_VERTICES = 700_000;

/**
 * All cracks of a repeat, rank by rank: main cracks first, along the folds; then finer ones wherever a
 * place is still far from any crack; then twigs that start from a crack and die out.
 */
export function growNetwork(
  box: Box,
  values: WaxValues,
  random: (name: string) => RandomStream,
  progress: (done: number) => void,
): Crack[] {
  const crumple = crumpleOf(box, values, random('crumple'));
  const cracks: Crack[] = [];
  const ranks = values.branching > 0 ? 3 : 1;
  for (let rank = 0; rank < ranks; rank++) {
    const spacing = spacingOf(values, rank);
    const growth = openGrowth(box, Math.max(spacing / 2, 1), crumple, random(`rank ${rank}`), cracks);
    fillGaps(box, growth, habitOf(values, rank, spacing), spacing, cracks, (done) =>
      progress((rank + done) / 4),
    );
  }
  if (values.branching > 0) {
    const spacing = spacingOf(values, 2);
    const growth = openGrowth(box, Math.max(spacing / 2, 1), crumple, random('twigs'), cracks);
    growTwigs(growth, habitOf(values, TWIG, spacing), values.branching, spacing, cracks);
    growHairs(box, values, growth, cracks);
  }
  return cracks;
}

/** mm between cracks of a rank where the cloth is neither calm nor crushed. */
function spacingOf({ spacing, branching }: WaxValues, rank: number): number {
  const closer = rank === 0 ? 1 : 1.6 - 0.6 * branching ** 0.7;
  return Math.max(LEAST_SPACING, spacing * RANK_SPACING[rank] * Math.max(0.45, closer));
}

function habitOf({ curve }: WaxValues, rank: number, spacing: number): Habit {
  const step = Math.max(0.35, Math.min(1.3, spacing / 9));
  if (rank === 0) {
    return {
      rank,
      step,
      reach: 9 * spacing,
      sight: 0.22 * spacing,
      wander: 0.026 * curve,
      kinks: 0.034,
      obedience: 0.03,
      crossing: 0.3,
    };
  }
  if (rank === HAIR) {
    return {
      rank,
      step,
      reach: 2.2 * spacing,
      sight: 3 * step,
      wander: 0.04 * curve,
      kinks: 0.02,
      obedience: 0.07,
      crossing: 0.85,
    };
  }
  return {
    rank,
    step,
    reach: (rank === TWIG ? 0.8 : 2.6) * spacing,
    sight: Math.max(3 * step, 0.35 * spacing),
    wander: 0.04 * curve,
    kinks: 0.05,
    obedience: 0,
    crossing: rank === 1 ? 0.12 : 0.05,
  };
}

function openGrowth(
  box: Box,
  mmPerCell: number,
  crumple: Crumple,
  random: RandomStream,
  cracks: readonly Crack[],
): Growth {
  const map = new CrackMap(box, mmPerCell);
  for (let k = 0; k < cracks.length; k++) addToMap(map, cracks[k], k);
  return { map, crumple, random, near: nothingNear() };
}

function addToMap(map: CrackMap, { xs, ys }: Crack, number: number): void {
  let along = 0;
  for (let k = 0; k < xs.length; k++) {
    if (k > 0) along += Math.hypot(xs[k] - xs[k - 1], ys[k] - ys[k - 1]);
    map.add(xs[k], ys[k], number, along);
  }
}

/** Places tried for each crack that would fill its spacing squared. */
const TRIES = 5;

/** Starts cracks at random places that lie farther than half the spacing from all others. */
function fillGaps(
  box: Box,
  growth: Growth,
  habit: Habit,
  spacing: number,
  cracks: Crack[],
  progress: (done: number) => void,
): void {
  const { map, crumple, random, near } = growth;
  const tries = Math.ceil((TRIES * box.width * box.height) / spacing ** 2);
  for (let k = 0; k < tries && map.count < MOST_VERTICES; k++) {
    if (k % 64 === 0) progress(k / tries);
    const x = random.between(0, box.width);
    const y = random.between(0, box.height);
    const room = Math.max(LEAST_ROOM, 0.5 * spacing * crumple.spacingAt(x, y));
    map.nearest(x, y, room, near, () => false);
    if (near.vertex >= 0 && cracks.length > 0) continue;
    // Across the way to the nearest crack where one is felt, along the folds else.
    map.nearest(x, y, 2 * room, near, () => false);
    const toward =
      near.vertex >= 0 ? Math.atan2(near.dy, near.dx) : crumple.foldAt(x, y) + 0.3 * random.normal();
    const heading = habit.rank === 0 ? crumple.foldAt(x, y) + 0.35 * random.normal() : toward;
    const crack = growBothWays(growth, habit, cracks.length, x, y, heading);
    if (crack.xs.length < 4) continue;
    addToMap(map, crack, cracks.length);
    cracks.push(crack);
  }
}

function growBothWays(
  growth: Growth,
  habit: Habit,
  number: number,
  x: number,
  y: number,
  heading: number,
): Crack {
  const back = growOneWay(growth, habit, number, -1, x, y, heading + Math.PI);
  const forth = growOneWay(growth, habit, number, -1, x, y, heading);
  return {
    rank: habit.rank,
    xs: [...back.xs.reverse(), x, ...forth.xs],
    ys: [...back.ys.reverse(), y, ...forth.ys],
    isJoinedAtStart: back.isJoined,
    isJoinedAtEnd: forth.isJoined,
  };
}

/** Short cracks that start from others at about a right angle. */
function growTwigs(growth: Growth, habit: Habit, branching: number, spacing: number, cracks: Crack[]): void {
  const { map, crumple, random } = growth;
  const parents = cracks.length;
  for (let parent = 0; parent < parents && map.count < MOST_VERTICES; parent++) {
    const { xs, ys } = cracks[parent];
    for (let k = 2; k < xs.length - 2; k++) {
      const mm = Math.hypot(xs[k + 1] - xs[k], ys[k + 1] - ys[k]);
      const chance = (0.14 * branching * mm) / (spacing * crumple.spacingAt(xs[k], ys[k]));
      if (random.next() >= chance) continue;
      const side = random.next() < 0.5 ? -1 : 1;
      const heading =
        Math.atan2(ys[k + 1] - ys[k - 1], xs[k + 1] - xs[k - 1]) +
        side * (Math.PI / 2) +
        0.25 * random.normal();
      const reach = habit.reach * (0.25 + 1.2 * random.next() ** 2);
      const way = growOneWay(growth, { ...habit, reach }, cracks.length, parent, xs[k], ys[k], heading);
      if (way.xs.length < 3) continue;
      const twig: Crack = {
        rank: habit.rank,
        xs: [xs[k], ...way.xs],
        ys: [ys[k], ...way.ys],
        isJoinedAtStart: true,
        isJoinedAtEnd: way.isJoined,
      };
      addToMap(map, twig, cracks.length);
      cracks.push(twig);
    }
  }
}

/** Hairlines of crushed places: long, fine, nearly side by side along the folds. */
function growHairs(box: Box, values: WaxValues, growth: Growth, cracks: Crack[]): void {
  const { crumple, random, map } = growth;
  const spacing = Math.max(4 * LEAST_SPACING, values.spacing);
  const habit = habitOf(values, HAIR, spacing);
  const tries = Math.ceil((2.2 * values.branching * box.width * box.height) / spacing ** 2);
  for (let k = 0; k < tries && map.count < MOST_VERTICES; k++) {
    const x = random.between(0, box.width);
    const y = random.between(0, box.height);
    if (random.next() > 0.5 * crumple.spacingAt(x, y) ** -1.6) continue;
    const heading = crumple.foldAt(x, y) + 0.25 * random.normal();
    const reach = habit.reach * (0.3 + random.next() ** 2);
    const hair = growBothWays(growth, { ...habit, reach }, cracks.length, x, y, heading);
    if (hair.xs.length < 6) continue;
    addToMap(map, hair, cracks.length);
    cracks.push(hair);
  }
}
