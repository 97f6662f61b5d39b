import { type Box, type RandomStream, shortestVector } from 'tenter';
import { Crowd } from './crowd.ts';
import type { Drop } from './drop.ts';
import { joinTouching, orderOf } from './join.ts';
import { type Form, REACH } from './profile.ts';
import { clamp, type Ground } from './wetness.ts';

/** What the drops are scattered by; lengths in mm, shares 0..1. */
export interface ScatterSpec {
  /** Larger drops per mm2. */
  readonly drops: number;
  /** Specks per mm2. */
  readonly spatter: number;
  /** Width of the largest openings. */
  readonly size: number;
  readonly variety: number;
  readonly wetness: number;
  readonly lift: number;
  readonly seconds: number;
  readonly run: number;
  /** Radians. */
  readonly tilt: number;
}

/** The least opening worth drawing, mm. */
const LEAST_RADIUS = 0.13;
/** A charge of surfactant ten thousand times another opens ten times as wide: R goes with its fourth root. */
const CHARGE_DECADES = 5.2;
/** Openings never cover more than this share of the sheet: more drops than that run into one another. */
const MOST_COVER = 0.62;
/** More specks than this on one repeat are not told apart and only take time. */
const MOST_SPECKS = 24_000;

/**
 * All drops of one repeat in the order they fell.
 *
 * @param open Opens a random stream by name.
 */
export function scatterDrops(
  box: Box,
  ground: Ground,
  spec: ScatterSpec,
  open: (name: string) => RandomStream,
): Drop[] {
  // A drop must not meet its own copies, or which of them came last would be anybody's guess.
  const widest = (0.49 * shortestVector(box.lattice)) / REACH / 1.6;
  const scatter: Scatter = { box, ground, spec, widest };
  const large = largerDrops(scatter, open('larger drops'));
  const all = [
    ...large,
    ...secondDrops(scatter, large, open('second drops')),
    ...runs(scatter, large, open('runs')),
    ...satellites(scatter, large, open('satellites')),
    ...sprays(scatter, open('sprays')),
  ];
  return joinTouching(box, all);
}

interface Scatter {
  readonly box: Box;
  readonly ground: Ground;
  readonly spec: ScatterSpec;
  /** The largest radius that this repeat has room for. */
  readonly widest: number;
}

/**
 * A drop as the wash under it takes it up. On wet paint the spirit drives the film far before it is
 * gone; on drying paint it is stopped early.
 *
 * @param wide Radius it would have on the wettest wash.
 * @param late 0 fell at once, 1 when the wash was nearly dry.
 */
function fallen(
  { ground, spec, widest }: Scatter,
  random: RandomStream,
  x: number,
  y: number,
  wide: number,
  late: number,
): Drop {
  const wet = clamp(ground.wetnessAt(x, y) * (1.15 - 0.75 * late));
  const radius = clamp(wide * (0.42 + 0.6 * wet), LEAST_RADIUS, widest);
  const isGhost = random.next() < 0.07 + 0.25 * wet * wet;
  const softness = clamp(0.9 * wet - 0.22 + 0.2 * random.normal() + (isGhost ? 0.4 : 0));
  const kept = 1 - spec.lift * (isGhost ? random.between(0.25, 0.7) : strengthOf(random));
  return {
    x,
    y,
    radius,
    time: late + 0.0001 * random.next(),
    softness,
    stain: clamp(kept, 0.025, 0.94),
    lobes: Math.exp(0.45 * random.normal()),
    stretch: 0.2 * random.next() ** 2,
    heading: random.between(0, Math.PI),
    form: formOf(random.next(), radius),
    isApart: false,
    ink: random.next() < 0.4 ? 0 : random.between(0.2, 1.5),
    sweep: random.between(0.6, 0.97),
    bleed: Math.min(2.4, (0.24 + 0.13 * radius) * (0.55 + softness) * Math.exp(0.4 * random.normal())),
    fingers: (0.025 + 0.07 * random.next() ** 2) * (0.7 + 0.7 * softness),
    grain: random.next() < 0.6 ? 0.03 : random.between(0.05, 0.17) * Math.min(1, 4.5 / radius),
  };
}

/** How much of what it may a charge lifts: most do, and some hardly. */
function strengthOf(random: RandomStream): number {
  return 1.08 - 0.5 * random.next() ** 1.8;
}

/** mm; smaller openings are shut before anything flows back. */
const PLAIN = 1.1;

/** Most openings pale toward their middle or were swept flat; some hold what ran back. */
function formOf(chance: number, radius: number): Form {
  if (radius < PLAIN) return chance < 0.6 ? 'graded' : 'flat';
  if (chance < 0.26) return 'graded';
  if (chance < 0.42) return 'flat';
  if (chance < 0.72) return 'returned';
  if (chance < 0.86) return 'filled';
  return chance < 0.93 ? 'backrun' : 'eye';
}

/** Size of a larger drop: few large, many small, by charges spread evenly over decades. */
function radiusOf({ size, variety }: ScatterSpec, random: RandomStream): number {
  const decades = CHARGE_DECADES * variety * random.next() ** 1.2;
  const flood = random.next() < 0.16 ? random.between(1.2, 1.9) : 1;
  return 0.5 * size * flood * 10 ** (-decades / 4);
}

function largerDrops(scatter: Scatter, random: RandomStream): Drop[] {
  const { box, ground, spec } = scatter;
  const area = box.width * box.height;
  const wanted = chance(spec.drops * area, random);
  const crowd = new Crowd(box, spec.size);
  const drops: Drop[] = [];
  let cover = 0;
  for (let k = 0; k < wanted && cover < MOST_COVER * area; k++) {
    const wide = radiusOf(spec, random);
    let best = { x: 0, y: 0, score: Number.NEGATIVE_INFINITY };
    // The choice of several places keeps drops from lying upon one another, yet lets them touch.
    for (let attempt = 0; attempt < 9; attempt++) {
      const x = random.between(0, box.width);
      const y = random.between(0, box.height);
      const room = Math.min(0.15, crowd.gapAt(x, y, wide)) * 5;
      const score = Math.log(ground.densityAt(x, y)) + room + random.next() * 0.7;
      if (score > best.score) best = { x, y, score };
    }
    const fell = fallen(scatter, random, best.x, best.y, wide, random.next() ** 1.5);
    const drop = { ...fell, form: random.next() < 0.16 * spec.seconds ? 'eye' : fell.form } as const;
    const group = random.next() < 0.24 ? [drop, ...siblings(scatter, drop, random)] : [drop];
    for (const { x, y, radius } of group) {
      crowd.add(x, y, radius);
      cover += Math.PI * radius ** 2;
    }
    drops.push(...group);
  }
  return drops;
}

/** Drops of one dab of the brush: they fell together, run into one another and open as one lobed place. */
function siblings(scatter: Scatter, first: Drop, random: RandomStream): Drop[] {
  const drops: Drop[] = [];
  let { x, y } = first;
  let heading = random.between(0, 2 * Math.PI);
  for (let k = 1 + random.below(3); k > 0; k--) {
    const radius = first.radius * random.between(0.3, 0.95);
    const away = (first.radius + radius) * random.between(0.45, 0.95) * (drops.length > 0 ? 0.8 : 1);
    x += away * Math.cos(heading);
    y += away * Math.sin(heading);
    drops.push({
      ...fallen(scatter, random, x, y, radius, first.time),
      radius: clamp(radius, LEAST_RADIUS, scatter.widest),
      time: first.time + 0.0002 * drops.length,
      softness: clamp(first.softness + 0.08 * random.normal()),
      stain: first.stain,
      ink: first.ink,
      form: first.form,
    });
    heading += 0.9 * random.normal();
  }
  return drops;
}

/** A whole number whose mean is `count`: small tiles get a drop now and then instead of never. */
function chance(count: number, random: RandomStream): number {
  return Math.floor(count + random.next());
}

/** Drops that fell into openings: rings within rings, for they lift some of the stain as well. */
function secondDrops(scatter: Scatter, large: readonly Drop[], random: RandomStream): Drop[] {
  const { spec } = scatter;
  const drops: Drop[] = [];
  for (const first of large) {
    if (random.next() >= spec.seconds) continue;
    const count = 1 + (random.next() < 0.35 ? 1 + random.below(2) : 0);
    for (let k = 0; k < count; k++) {
      const radius = first.radius * random.between(0.25, 0.9);
      const away = first.radius * random.between(0.25, 0.95);
      const angle = random.between(0, 2 * Math.PI);
      const fell = fallen(
        scatter,
        random,
        first.x + away * Math.cos(angle),
        first.y + away * Math.sin(angle),
        radius,
        0,
      );
      drops.push({
        ...fell,
        radius: clamp(radius, LEAST_RADIUS, scatter.widest),
        time: first.time + 0.03 + 0.3 * random.next(),
        softness: random.between(0.75, 1),
        stain: first.stain * random.between(0.45, 0.95),
        ink: first.ink * random.between(0.5, 1.3),
        form: random.next() < 0.7 ? 'graded' : fell.form,
        isApart: true,
      });
    }
  }
  return drops;
}

/** Openings that ran down the tilted sheet: drops along a wandering way, of nearly one width, each in the last. */
function runs(scatter: Scatter, large: readonly Drop[], random: RandomStream): Drop[] {
  const { spec, widest } = scatter;
  const drops: Drop[] = [];
  if (spec.run === 0) return drops;
  for (const first of large) {
    if (first.radius < 0.17 * spec.size || random.next() > 0.55) continue;
    const length = spec.run * random.between(0.25, 1.1) * Math.min(1.2, (3 * first.radius) / spec.size);
    let radius = Math.max(0.8, first.radius * random.between(0.66, 0.97));
    const thinning = random.between(0.4, 0.8);
    const thick = radius;
    let heading = spec.tilt + 0.12 * random.normal();
    let x = first.x + 0.35 * first.radius * Math.cos(heading);
    let y = first.y + 0.35 * first.radius * Math.sin(heading);
    for (let gone = 0, k = 0; gone < length && k < 60; k++) {
      const fell = fallen(scatter, random, x, y, radius, 0);
      drops.push({
        ...fell,
        radius: clamp(radius, LEAST_RADIUS, widest),
        time: orderOf(first) + 0.001 * (k + 1) + Math.log2(radius),
        softness: clamp(first.softness + (0.4 * gone) / length),
        stain: first.stain + (0.97 - first.stain) * Math.min(1, gone / length) ** 1.4,
        isApart: true,
        grain: first.grain,
        // What ran was drawn out smooth: its banks are the paper's, not those of single drops.
        lobes: 0.5 * fell.lobes,
        stretch: 0.3,
        heading,
        form: 'flat',
        ink: first.ink,
      });
      const step = radius * 0.75;
      gone += step;
      x += step * Math.cos(heading);
      y += step * Math.sin(heading);
      heading = spec.tilt + 0.84 * (heading - spec.tilt) + 0.11 * random.normal();
      radius = thick * (1 - (1 - thinning) * Math.min(1, gone / length)) * random.between(0.9, 1.08);
    }
  }
  return drops;
}

/** Specks thrown up by the larger drops: an arc on one side, nearer ones larger. */
function satellites(scatter: Scatter, large: readonly Drop[], random: RandomStream): Drop[] {
  const { spec, box } = scatter;
  const drops: Drop[] = [];
  const wanted = 0.35 * spec.spatter * box.width * box.height;
  const throwers = large.filter(({ radius }) => radius > 0.16 * spec.size);
  const share = Math.min(24, wanted / Math.max(1, 0.6 * throwers.length));
  for (const first of throwers) {
    if (random.next() > 0.6) continue;
    const count = Math.round(share * random.between(0.3, 1.7));
    const middle = random.between(0, 2 * Math.PI);
    const opening = random.between(0.35, 1.7);
    for (let k = 0; k < count; k++) {
      const angle = middle + opening * random.normal() * 0.6;
      const away = first.radius * (1.12 + 0.5 * random.next() + 0.5 * random.next() ** 4);
      drops.push(
        speck(scatter, random, first.x + away * Math.cos(angle), first.y + away * Math.sin(angle), angle, {
          scale: 0.05 * first.radius,
          late: clamp(first.time + random.between(-0.05, 0.4)),
        }),
      );
    }
  }
  return drops;
}

/** Specks flicked from the brush: fans that thin out with distance, and some strays. */
function sprays(scatter: Scatter, random: RandomStream): Drop[] {
  const { spec, box, ground } = scatter;
  const drops: Drop[] = [];
  const wanted = Math.min(MOST_SPECKS, chance(0.65 * spec.spatter * box.width * box.height, random));
  while (drops.length < wanted) {
    const start = densePlace(box, ground, random);
    const heading = random.between(0, 2 * Math.PI);
    const fan = random.between(0.08, 0.5);
    const length = random.between(18, 90);
    const scale = 0.024 * spec.size * Math.exp(0.55 * random.normal());
    const late = random.next() ** 0.7;
    const count = Math.min(wanted - drops.length, 8 + random.below(60));
    for (let k = 0; k < count; k++) {
      const isStray = random.next() < 0.22;
      const away = length * random.next() ** 0.8;
      const angle = heading + fan * random.normal();
      const x = isStray ? random.between(0, box.width) : start.x + away * Math.cos(angle);
      const y = isStray ? random.between(0, box.height) : start.y + away * Math.sin(angle);
      drops.push(speck(scatter, random, x, y, angle, { scale, late }));
    }
  }
  return drops;
}

function densePlace(box: Box, ground: Ground, random: RandomStream): { x: number; y: number } {
  for (let attempt = 0; ; attempt++) {
    const x = random.between(0, box.width);
    const y = random.between(0, box.height);
    if (attempt > 12 || random.next() * 2 < ground.densityAt(x, y)) return { x, y };
  }
}

/** A speck: sizes fall off as a power, so that one in a hundred is a drop by itself. */
function speck(
  scatter: Scatter,
  random: RandomStream,
  x: number,
  y: number,
  heading: number,
  { scale, late }: { readonly scale: number; readonly late: number },
): Drop {
  const wide = Math.min(14 * scale, scale / (1 - random.next()) ** (0.15 + 0.65 * scatter.spec.variety));
  const fell = fallen(scatter, random, x, y, Math.max(LEAST_RADIUS, wide), late);
  return {
    ...fell,
    softness: clamp(fell.softness + 0.12),
    // Surface tension rounds what is small.
    lobes: 0.55 * fell.lobes,
    stretch: 0.42 * random.next() ** 2,
    heading,
  };
}
