import {
  addFractalRow,
  type Box,
  boxOf,
  fractalNoise,
  parseLayout,
  poissonPoints,
  type RandomStream,
} from 'tenter';

/**
 * A surface to press on paper: heights with mean 0 and standard deviation 1, in steps of 1 / `FACE_SCALE`,
 * on a square of `side` cells that closes on itself. `side` is a power of two.
 */
export interface Face {
  readonly heights: Int8Array;
  readonly side: number;
  /** Variance of the heights that cells this large no longer show. */
  readonly lost: number;
  /** The greatest height, in steps. */
  readonly highest: number;
}

export const FACE_SCALE = 28;

/** Cells along the face at its finest, and pores along it. */
const SIDE = 512;
export const FACE_PORES = 52;
const LEVELS = 6;

/** Mouths of the sponge, its pores, and pinholes: distances and radii in pores, and depths. */
const PITS = [
  { distance: 4.2, least: 0.8, most: 2.3, depth: 3.6 },
  { distance: 1.25, least: 0.38, most: 0.95, depth: 3 },
  { distance: 0.6, least: 0.14, most: 0.3, depth: 1.8 },
] as const;

/** The face of a sponge, then the same in cells twice as large each. */
export function spongeFace(random: RandomStream): Face[] {
  const box = boxOf({ layout: parseLayout('straight'), width: FACE_PORES, height: FACE_PORES });
  const heights = relief(box, random);
  const pits = new Float32Array(SIDE * SIDE);
  const ragged = relief(box, random, [{ cell: 0.9, strength: 1 }]);
  for (const pit of PITS) sinkPits(pits, box, pit, ragged, random);
  for (let k = 0; k < heights.length; k++) heights[k] -= pits[k];
  return levelsOf(heights, SIDE, LEVELS);
}

/** Clumps and lobes as large as the sponge, so that no dab has a plain outline: `sides` across the face. */
export function lobesFace(lobes: number, random: RandomStream): Face {
  const box = boxOf({ layout: parseLayout('straight'), width: lobes, height: lobes });
  const side = 128;
  const field = new Float32Array(side * side);
  const noise = fractalNoise(box.lattice, { along: 1, across: 1 }, { octaves: 3, gain: 0.6 }, random);
  const step = lobes / side;
  for (let j = 0; j < side; j++) {
    addFractalRow(noise, step / 2, step, (j + 0.5) * step, 1, field, side, j * side);
  }
  return levelsOf(field, side, 1)[0];
}

interface Octave {
  /** In pores. */
  readonly cell: number;
  readonly strength: number;
  /** Folded at 0: threads instead of hills. */
  readonly isFolded?: boolean;
}

const RELIEF: readonly Octave[] = [
  { cell: 4, strength: 0.3 },
  { cell: 2, strength: 0.75, isFolded: true },
  { cell: 1, strength: 0.6, isFolded: true },
  { cell: 0.5, strength: 0.3 },
  { cell: 0.24, strength: 0.2 },
];

function relief(box: Box, random: RandomStream, octaves = RELIEF): Float32Array {
  const sum = new Float32Array(SIDE * SIDE);
  const row = new Float32Array(SIDE);
  const step = FACE_PORES / SIDE;
  for (const { cell, strength, isFolded } of octaves) {
    const noise = fractalNoise(box.lattice, { along: cell, across: cell }, { octaves: 1, gain: 1 }, random);
    for (let j = 0; j < SIDE; j++) {
      row.fill(0);
      addFractalRow(noise, step / 2, step, (j + 0.5) * step, 1, row, SIDE);
      for (let i = 0; i < SIDE; i++) {
        sum[j * SIDE + i] += strength * (isFolded ? 1 - 1.6 * Math.abs(row[i]) : row[i]);
      }
    }
  }
  return sum;
}

/** Sinks pits of many sizes; where they overlap the deeper counts. Raggedness keeps them from being round. */
function sinkPits(
  pits: Float32Array,
  box: Box,
  { distance, least, most, depth }: (typeof PITS)[number],
  ragged: Float32Array,
  random: RandomStream,
): void {
  const points = poissonPoints(box, distance, random);
  const perPore = SIDE / FACE_PORES;
  for (let n = 0; n < points.x.length; n++) {
    const radius = (least + (most - least) * random.next() ** 2) * perPore;
    const squash = random.between(0.6, 1);
    const turn = random.between(0, Math.PI);
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const own = depth * random.between(0.6, 1.1);
    const [x, y] = [points.x[n] * perPore, points.y[n] * perPore];
    const reach = Math.ceil(1.6 * radius);
    for (let j = Math.floor(y) - reach; j <= y + reach; j++) {
      for (let i = Math.floor(x) - reach; i <= x + reach; i++) {
        const k = (i & (SIDE - 1)) + (j & (SIDE - 1)) * SIDE;
        const u = (i + 0.5 - x) * cos + (j + 0.5 - y) * sin;
        const v = ((j + 0.5 - y) * cos - (i + 0.5 - x) * sin) / squash;
        const away = (Math.sqrt(u * u + v * v) / radius) * (1 + 0.28 * ragged[k]);
        if (away < 1) pits[k] = Math.max(pits[k], own * (1 - away * away));
      }
    }
  }
}

function levelsOf(field: Float32Array, side: number, levels: number): Face[] {
  const normal = normalised(field);
  const faces: Face[] = [];
  let [values, across, lost] = [normal, side, 0];
  for (let level = 0; level < levels; level++) {
    const heights = quantised(values);
    faces.push({ heights, side: across, lost, highest: heights.reduce((a, b) => Math.max(a, b)) });
    const half = across / 2;
    const means = new Float32Array(half * half);
    let squares = 0;
    for (let j = 0; j < half; j++) {
      for (let i = 0; i < half; i++) {
        const k = 2 * j * across + 2 * i;
        const [a, b] = [values[k], values[k + 1]];
        const [c, d] = [values[k + across], values[k + across + 1]];
        const mean = (a + b + c + d) / 4;
        means[j * half + i] = mean;
        squares += a * a + b * b + c * c + d * d - 4 * mean * mean;
      }
    }
    lost += squares / (across * across);
    [values, across] = [means, half];
  }
  return faces;
}

function normalised(field: Float32Array): Float32Array {
  let sum = 0;
  let squares = 0;
  for (const value of field) sum += value;
  const mean = sum / field.length;
  for (const value of field) squares += (value - mean) ** 2;
  const deviation = Math.sqrt(squares / field.length);
  return field.map((value) => (value - mean) / deviation);
}

function quantised(field: Float32Array): Int8Array {
  const steps = new Int8Array(field.length);
  for (let k = 0; k < steps.length; k++) {
    steps[k] = Math.max(-127, Math.min(127, Math.round(field[k] * FACE_SCALE)));
  }
  return steps;
}
