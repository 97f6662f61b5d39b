import {
  addFractalRow,
  type Box,
  bakeField,
  cellGrid,
  type FieldShape,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
} from 'tenter';
import type { WornValues } from './parameters.ts';

/** A plain weave: one end or pick goes over, the next one under. Plain data. */
export interface Threads {
  /** One cell per crossing. */
  readonly grid: FieldShape;
  /** Heights of whole ends and picks above the others, in deviations of the weave. */
  readonly ends: Float32Array;
  readonly picks: Float32Array;
  /** How far ends and picks wander, in threads. */
  readonly endsWander: PeriodicField;
  readonly picksWander: PeriodicField;
}

/** Picks are a little fewer than ends, as in most cloth. */
const PICKS = 0.88;
/** A share of the threads is much thicker than the rest: slubs. */
const SLUBS = 0.06;

/** mm per cell of how threads wander. */
const WANDER_CELL = 1;

export function threadsOf(box: Box, { threads, standing }: WornValues, random: RandomStream): Threads {
  const sides = { width: 10 / threads, height: 10 / threads / PICKS };
  // Over and under close where the counts are even.
  const grid = cellGrid(box, sides, (count) => 2 * Math.max(1, Math.round(count / 2)));
  const { kind, denominator } = box.layout;
  const heights = (count: number) =>
    Float32Array.from({ length: count }, () => {
      const slub = random.next() < SLUBS ? 1.4 : 0;
      return standing * (0.75 * random.normal() + slub);
    });
  const wander = (direction: number) => {
    const shape = { along: 38, across: 9, direction };
    const noise = fractalNoise(box.lattice, shape, { octaves: 2, gain: 0.5, deviation: 0.3 }, random);
    return bakeField(box, WANDER_CELL, (x0, step, y, row, count, offset) =>
      addFractalRow(noise, x0, step, y, 1, row, count, offset),
    );
  };
  return {
    grid,
    // Under a drop or a brick offset a thread that leaves the box comes back as another one.
    ends: heights(kind === 'brick' ? grid.width / denominator : grid.width),
    picks: heights(kind === 'drop' ? grid.height / denominator : grid.height),
    endsWander: wander(90),
    picksWander: wander(0),
  };
}

/** How high the knuckle of a thread stands, 0..1: `across` and `along` it from its middle, both -1..1. */
function knuckle(across: number, along: number): number {
  return Math.sqrt(1 - across * across) * (1 - 0.6 * along * along);
}

/** Ends are drawn taut and lie lower, picks crimp over them. */
const CRIMP = 0.12;
/** Of `knuckle` with its crimp over a whole crossing: mean and deviation (a numeric integral, see the test). */
export const KNUCKLE_MEAN = 0.6284;
export const KNUCKLE_DEVIATION = 0.26;

/** Rows of scratch numbers, kept from call to call; always written before they are read. */
export interface ThreadRow {
  readonly endsWander: Float32Array;
  readonly picksWander: Float32Array;
}

/**
 * The height of the weave along a row, mean 0, in deviations.
 *
 * @param shown How much of the knuckles pixels of this size show, 0..1.
 */
export function weaveRow(
  { grid, ends, picks }: Threads,
  rows: ThreadRow,
  x0: number,
  step: number,
  y: number,
  count: number,
  shown: number,
  out: Float32Array,
): void {
  const { endsWander, picksWander } = rows;
  const perX = 1 / grid.mmPerCellX;
  const v0 = y / grid.mmPerCellY;
  const scale = shown / KNUCKLE_DEVIATION;
  for (let k = 0; k < count; k++) {
    const u = (x0 + k * step) * perX + endsWander[k];
    const v = v0 + picksWander[k];
    const i = Math.floor(u);
    const j = Math.floor(v);
    const across = 2 * (u - i) - 1;
    const along = 2 * (v - j) - 1;
    const isEnd = ((i + j) & 1) === 0;
    const height = isEnd ? knuckle(across, along) - CRIMP : knuckle(along, across) + CRIMP;
    const own = isEnd ? ends[modulo(i, ends.length)] : picks[modulo(j, picks.length)];
    out[k] = (height - KNUCKLE_MEAN) * scale + shown * own;
  }
}

function modulo(k: number, count: number): number {
  const rest = k % count;
  return rest < 0 ? rest + count : rest;
}
