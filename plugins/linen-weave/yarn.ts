import { hashCell, hashUnit } from 'tenter';
import { evenOut } from './neighbour.ts';
import { lapCount, loopCount, type ThreadSet, threadOfLap } from './threads.ts';

/** How a set of yarns varies. */
export interface YarnCharacter {
  /** mm, half the width of the even yarn as it lies in the cloth. */
  readonly half: number;
  /** Standard deviation of the log of the width. */
  readonly unevenness: number;
  /** Slubs per metre of yarn. */
  readonly slubs: number;
  /** Standard deviation of the tone, 1 = as much light as the mean yarn returns. */
  readonly tone: number;
  /** Standard deviation of a thread's own straying, mm. */
  readonly straying: number;
}

/** One number per cell of a thread set, thread by thread. */
export interface YarnTables {
  /** mm, half the width. */
  readonly half: Float32Array;
  /** Light returned, about 1. */
  readonly tone: Float32Array;
  /** mm away from the even place, towards higher threads. */
  readonly offset: Float32Array;
}

/** An octave of variation along a yarn: wavelength in mm, share of the standard deviation. */
type Octave = readonly [wavelength: number, share: number];

/** Drafting waves of a few fibre lengths down to the single fibre bundle; shares squared sum to 1. */
const WIDTH_OCTAVES: readonly Octave[] = [
  [2.5, 0.55],
  [9, 0.7],
  [35, 0.46],
];
/** Mostly from bobbin to bobbin, so that whole threads stand out lighter or darker. */
const TONE_OCTAVES: readonly Octave[] = [
  [400, 0.82],
  [45, 0.43],
  [6, 0.37],
];
const STRAYING_OCTAVES: readonly Octave[] = [
  [6, 0.6],
  [40, 0.8],
];

const SLUB_LENGTH = { shortest: 12, longest: 90 } as const;
/** How much wider a slub is than its yarn. */
const SLUB_SWELL = { least: 0.3, most: 0.85 } as const;

/** A yarn never thins below, nor swells above, this share of its even width. */
const THINNEST = 0.42;
const THICKEST = 2.4;

/**
 * Draws the yarns of a set. Every table is drawn along whole loops, so it runs on without a break
 * where a yarn leaves the box and comes in again.
 */
export function spinYarns(set: ThreadSet, character: YarnCharacter, seed: number): YarnTables {
  const size = set.count * set.cells;
  const half = new Float32Array(size);
  const tones = new Float32Array(size);
  const offset = new Float32Array(size);
  const length = lapCount(set) * set.cells;
  const width = new Float32Array(length);
  const tone = new Float32Array(length);
  const straying = new Float32Array(length);
  const slub = new Float32Array(length);
  for (let loop = 0; loop < loopCount(set); loop++) {
    fillOctaves(width, set, WIDTH_OCTAVES, character.unevenness, seed, loop);
    fillOctaves(tone, set, TONE_OCTAVES, character.tone, seed + 11, loop);
    fillOctaves(straying, set, STRAYING_OCTAVES, character.straying, seed + 22, loop);
    slub.fill(0);
    addSlubs(slub, set.cellLength, character.slubs, seed + 33, loop);
    swell(width, slub, character.half);
    exponentiate(tone);
    unroll(width, half, set, loop);
    unroll(tone, tones, set, loop);
    unroll(straying, offset, set, loop);
  }
  return {
    half: limit(evenOut(set, half, character.half), character.half),
    tone: evenOut(set, tones, 1),
    offset,
  };
}

/** From the log of the width and the slubs to mm. */
function swell(width: Float32Array, slub: Float32Array, half: number): void {
  exponentiate(width);
  for (let k = 0; k < width.length; k++) width[k] *= half * (1 + slub[k]);
}

/** (1 + x/4)^4: e^x within 4 % for the small x of a yarn, never below 0, and several times cheaper. */
function exponentiate(line: Float32Array): void {
  for (let k = 0; k < line.length; k++) {
    const root = 1 + line[k] / 4;
    line[k] = root * root * root * root;
  }
}

function limit(widths: Float32Array, half: number): Float32Array {
  const [least, most] = [THINNEST * half, THICKEST * half];
  for (let k = 0; k < widths.length; k++) widths[k] = Math.min(most, Math.max(least, widths[k]));
  return widths;
}

function fillOctaves(
  line: Float32Array,
  { cellLength }: ThreadSet,
  octaves: readonly Octave[],
  deviation: number,
  seed: number,
  loop: number,
): void {
  line.fill(0);
  if (deviation === 0) return;
  octaves.forEach(([wavelength, share], octave) => {
    addLineNoise(line, wavelength / cellLength, deviation * share, seed + octave, loop);
  });
}

/** Standard deviation of a cubic B-spline through independent knots of deviation 1: sqrt(151/315). */
const SPLINE_DEVIATION = Math.sqrt(151 / 315);

/** Adds smooth noise of deviation `gain` that closes over the line; a knot about every `wavelength` cells. */
function addLineNoise(
  line: Float32Array,
  wavelength: number,
  gain: number,
  seed: number,
  loop: number,
): void {
  const count = Math.min(line.length, Math.max(1, Math.round(line.length / wavelength)));
  const knots = drawKnots(count, gain / (count === 1 ? 1 : SPLINE_DEVIATION), seed, loop);
  const step = count / line.length;
  for (let k = 0, cell = 0; k < count; k++) {
    const a = knots[k];
    const b = knots[k + 1];
    const c = knots[k + 2];
    const d = knots[k + 3];
    const c0 = (a + 4 * b + c) / 6;
    const c1 = (c - a) / 2;
    const c2 = (a - 2 * b + c) / 2;
    const c3 = (d - 3 * c + 3 * b - a) / 6;
    for (; cell < line.length; cell++) {
      const t = cell * step - k;
      if (t >= 1) break;
      line[cell] += ((c3 * t + c2) * t + c1) * t + c0;
    }
  }
}

/** Kept from call to call, for yarns are many; only what was just written is read. */
let knotStore = new Float64Array(0);

/** Independent numbers of deviation `gain`: the last one, then all of them, then the first two again. */
function drawKnots(count: number, gain: number, seed: number, loop: number): Float64Array {
  if (knotStore.length < count + 3) knotStore = new Float64Array(2 * count + 3);
  const knots = knotStore;
  for (let k = 0; k < count; k++) knots[k + 1] = gain * normalOf(hashCell(seed, k, loop));
  knots[0] = knots[count];
  knots[count + 1] = knots[1];
  knots[count + 2] = knots[count === 1 ? 1 : 2];
  return knots;
}

/** The sum of four random bytes, near enough normal with mean 0 and deviation 1. */
function normalOf(bits: number): number {
  return ((bits & 255) + ((bits >>> 8) & 255) + ((bits >>> 16) & 255) + (bits >>> 24) - 510) / 147.8;
}

/** Adds slubs: short lengths where the yarn swells by `1 + value`, tapered at both ends. */
function addSlubs(
  line: Float32Array,
  cellLength: number,
  perMetre: number,
  seed: number,
  loop: number,
): void {
  const metres = (line.length * cellLength) / 1000;
  const slubs = Math.floor(metres * perMetre + hashUnit(seed, -1, loop));
  const { shortest, longest } = SLUB_LENGTH;
  for (let k = 0; k < slubs; k++) {
    const centre = hashUnit(seed, 4 * k, loop) * line.length;
    const mm = shortest * (longest / shortest) ** hashUnit(seed, 4 * k + 1, loop);
    const swell = SLUB_SWELL.least + (SLUB_SWELL.most - SLUB_SWELL.least) * hashUnit(seed, 4 * k + 2, loop);
    const reach = Math.min(mm / cellLength, 0.8 * line.length) / 2;
    for (let cell = Math.ceil(centre - reach); cell <= centre + reach; cell++) {
      const z = (cell - centre) / reach;
      const at = cell - Math.floor(cell / line.length) * line.length;
      line[at] += swell * (1 - z * z) ** 2;
    }
  }
}

/** Lays a loop out over the threads it follows. */
function unroll(line: Float32Array, table: Float32Array, set: ThreadSet, loop: number): void {
  const { cells } = set;
  for (let lap = 0; lap * cells < line.length; lap++) {
    const to = threadOfLap(set, loop, lap) * cells;
    for (let cell = 0, from = lap * cells; cell < cells; cell++, from++) table[to + cell] = line[from];
  }
}
