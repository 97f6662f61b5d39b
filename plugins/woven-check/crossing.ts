import { modulo, smoothstep } from 'tenter';
import type { Weave } from './weave.ts';

/** Steps of the tables over one crossing, across as down. */
export const STEPS = 48;

/**
 * What each crossing of a weave shows, for every place on it: (crossing * STEPS + down) * STEPS + across. Plain
 * data; the tables are all that drawing needs, near and far.
 */
export interface Crossings {
  readonly shade: Float32Array;
  /** The share that has the colour of the warp; of a gap, half. */
  readonly warp: Float32Array;
  /** Which end and which pick shows or would: that of the crossing (0), or a neighbour that has spread (-1, 1). */
  readonly end: Int8Array;
  readonly pick: Int8Array;
  readonly means: CrossingMeans;
}

/** Means by crossing, for views in which none is drawn. */
export interface CrossingMeans {
  readonly shade: Float64Array;
  /** The share of each of three ends and picks: 3 * crossing + neighbour + 1. */
  readonly ends: Float64Array;
  readonly picks: Float64Array;
}

export interface CrossingSpec {
  readonly weave: Weave;
  /** The share of its room that a yarn fills, 0..1. */
  readonly cover: number;
  /** Ends per length over picks per length. */
  readonly crowding: number;
  readonly relief: number;
  /** Degrees. */
  readonly light: number;
}

/** Half the thickness of a yarn over half the distance from thread to thread; flattened by its neighbours. */
const THICK = 0.62;
/** A yarn spreads where it lies on top. */
const SPREAD = 0.1;
/** The closer set spreads over the other where it lies on top, as in a rep: by this for each time it is closer. */
const SPREAD_OF_CROWDING = 0.9;
const MOST_SPREAD = 0.9;
/** Height over which one of two touching yarns gives way to the other, in the same measure. */
const CONTACT = 0.1;
/** The tangent of the light's angle from the upright. */
const LEAN = 0.9;
/** Light that reaches past the edge of what it strikes. */
const WRAP = 0.55;
/** Light left at the bottom of a bend, on its top, and in the groove along a yarn. */
const LEAST_OPEN = 0.7;
const MOST_OPEN = 1.05;
const GROOVE = 0.34;
/** Light from between the threads. */
const GAP = 0.42;

/**
 * Draws every crossing of a weave once. Ovals bend over each other: the centre line of each goes from crossing to
 * crossing as a cubic with level ends (after Peirce 1937: the two crimps add up to the two thicknesses, here shared
 * evenly), the highest shows, and wrapped Lambert light with what bends and grooves hold back lights it. The light is
 * scaled to the mean 1 - 0.1 relief, so that no weave darkens the artwork more than another.
 */
export function drawCrossings(spec: CrossingSpec): Crossings {
  const places = spec.weave.length * STEPS * STEPS;
  const tables = {
    shade: new Float32Array(places),
    warp: new Float32Array(places),
    end: new Int8Array(places),
    pick: new Int8Array(places),
  };
  for (let crossing = 0; crossing < spec.weave.length; crossing++) drawCrossing(spec, crossing, tables);
  levelTo(tables.shade, Math.max(0.5, 1 - 0.1 * spec.relief));
  return { ...tables, means: meansOf(tables) };
}

function drawCrossing(spec: CrossingSpec, crossing: number, tables: Omit<Crossings, 'means'>): void {
  const at = (step: number) => spec.weave[modulo(crossing + step, spec.weave.length)] * 2 - 1;
  const warp = (offset: number): Course => ({
    here: at(offset),
    before: at(offset - 1),
    after: at(offset + 1),
  });
  const courses = NEIGHBOURS.map((offset) => warp(offset));
  const under = courses.map(({ here, before, after }) => ({ here: -here, before: -before, after: -after }));
  const [crowdWarp, crowdWeft] = [spreadOf(spec.crowding), spreadOf(1 / spec.crowding)];
  for (let down = 0; down < STEPS; down++) {
    const v = placeOf(down);
    for (let across = 0; across < STEPS; across++) {
      const u = placeOf(across);
      const end = highest(u, v, courses, spec.cover, crowdWarp);
      const pick = highest(v, u, under, spec.cover, crowdWeft);
      const index = (crossing * STEPS + down) * STEPS + across;
      const above = smoothstep((end.height - pick.height) / CONTACT + 0.5);
      const open = end.height === BELOW && pick.height === BELOW;
      // What does not show need not be lit.
      const onEnd = above > 0 ? above * lightOf(end, end.across, end.along, spec) : 0;
      const onPick = above < 1 ? (1 - above) * lightOf(pick, pick.along, pick.across, spec) : 0;
      tables.warp[index] = open ? 0.5 : above;
      tables.end[index] = end.offset;
      tables.pick[index] = pick.offset;
      tables.shade[index] = open ? lit(GAP, spec.relief) : onEnd + onPick;
    }
  }
}

const NEIGHBOURS = [-1, 0, 1];

function spreadOf(crowding: number): number {
  return Math.min(MOST_SPREAD, Math.max(0, SPREAD_OF_CROWDING * (crowding - 1)));
}

/** The highest of a thread and its two neighbours; itself where none reaches there. */
function highest(
  across: number,
  along: number,
  courses: readonly Course[],
  cover: number,
  crowd: number,
): YarnPlace {
  let best = yarnAt(across, along, courses, 0, cover, crowd);
  if (crowd === 0) return best;
  for (const offset of [-1, 1]) {
    const beside = yarnAt(across - 2 * offset, along, courses, offset, cover, crowd);
    if (beside.height > best.height) best = beside;
  }
  return best;
}

/** Over (1) or under (-1) at a crossing and at those before and after it along the yarn. */
interface Course {
  readonly here: number;
  readonly before: number;
  readonly after: number;
}

interface YarnPlace {
  readonly height: number;
  /** Slopes of its surface. */
  readonly across: number;
  readonly along: number;
  readonly level: number;
  /** From the centre line (0) to the edge (1). */
  readonly out: number;
  /** Of the thread: 0 is that of the crossing. */
  readonly offset: number;
}

const BELOW = -10;

/** @param across, along -1..1 over the crossing of the thread itself. */
function yarnAt(
  across: number,
  along: number,
  courses: readonly Course[],
  offset: number,
  cover: number,
  crowd: number,
): YarnPlace {
  const { here, before, after } = courses[offset + 1];
  const next = along > 0 ? after : before;
  const t = Math.abs(along) / 2;
  const level = here + (next - here) * t * t * (3 - 2 * t);
  const bend = (next - here) * 3 * t * (1 - t) * Math.sign(along);
  const half = cover * (1 + (SPREAD * (level - 1)) / 2 + (crowd * (level + 1)) / 2);
  const out = Math.abs(across) / half;
  if (out >= 1) return { height: BELOW, across: 0, along: 0, level, out: 1, offset };
  const round = Math.sqrt(1 - out * out);
  const steep = Math.min(2.2, out / Math.max(0.05, round));
  return {
    height: THICK * (level + round),
    across: (-Math.sign(across) * THICK * steep) / half,
    along: THICK * bend,
    level,
    out,
    offset,
  };
}

function lightOf({ level, out }: YarnPlace, dx: number, dy: number, { light, relief }: CrossingSpec): number {
  const angle = (light * Math.PI) / 180;
  const facing = (1 - LEAN * (dx * Math.cos(angle) + dy * Math.sin(angle))) / Math.hypot(1, dx, dy);
  const diffuse = Math.max(0, (facing + WRAP) / (1 + WRAP));
  const t = (level + 1) / 2;
  const open = LEAST_OPEN + (MOST_OPEN - LEAST_OPEN) * t * t * (3 - 2 * t);
  return lit(open * (1 - GROOVE * out ** 4) * diffuse, relief);
}

function lit(light: number, relief: number): number {
  return Math.max(0, 1 + relief * (light - 1));
}

function levelTo(shade: Float32Array, wanted: number): void {
  let sum = 0;
  for (const value of shade) sum += value;
  const gain = (wanted * shade.length) / sum;
  for (let k = 0; k < shade.length; k++) shade[k] *= gain;
}

function meansOf({ shade, warp, end, pick }: Omit<Crossings, 'means'>): CrossingMeans {
  const size = STEPS * STEPS;
  const count = shade.length / size;
  const means = {
    shade: new Float64Array(count),
    ends: new Float64Array(3 * count),
    picks: new Float64Array(3 * count),
  };
  for (let k = 0; k < shade.length; k++) {
    const crossing = Math.floor(k / size);
    means.shade[crossing] += shade[k] / size;
    means.ends[3 * crossing + end[k] + 1] += warp[k] / size;
    means.picks[3 * crossing + pick[k] + 1] += (1 - warp[k]) / size;
  }
  return means;
}

function placeOf(step: number): number {
  return (2 * (step + 0.5)) / STEPS - 1;
}
