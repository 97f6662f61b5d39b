/** How the pressed ribs are lit. */
export interface Lighting {
  /** Degrees: 0 from the right, 90 from below, 180 from the left, 270 from above. */
  readonly from: number;
  /** How much of the light's rise and fall across a rib shows. */
  readonly relief: number;
  /** How far the brightest lag lies above the mean light of all, as a share of it. */
  readonly mark: number;
}

/** Table steps across a rib, and of the second layer's lag over one rib. */
export const RIB_STEPS = 32;
export const LAG_STEPS = 128;
/** Numbers to a lag: the running integral has one more than it has steps. */
export const ROW = RIB_STEPS + 1;

/**
 * Running integrals of light across a rib, from its upper groove to its lower one, in parts of a rib.
 * `even` is the light of the mean over all lags; `mark` what a lag adds to it, row by row. An integral's
 * difference over a pixel's part of a rib is its exact mean.
 */
export interface PressedRibs {
  /** ROW numbers, of mean 0 over the rib. */
  readonly even: Float32Array;
  /** LAG_STEPS * ROW numbers, of mean 0 over rib and lags. */
  readonly mark: Float32Array;
}

/** Height of a rib over its width, before the press. */
const CROWN = 0.34;
/** Where the second layer's crests come to lie, as a share of the height of the first's. */
const NIP = 0.52;
/** Of what is pressed in, this share springs back. */
const SPRING = 0.15;
/** Tangent of the light's distance from straight above. */
const LIGHT_LEAN = 0.8;
const WRAP = 0.4;
/** How dark the groove between two ribs is. */
const GROOVE = 0.42;
/** Burnished silk: the gleam's height, and its width in slopes. */
const GLEAM = 0.55;
const GLEAM_WIDTH = 0.2;
/** How much of what a lag changes from flank to flank shows, beside what it changes in the rib's mean light. */
const DETAIL = 0.45;
/** How steep the change from dark bands to light ones is, beside what the means of a lag would give. */
const SHARPNESS = 1.7;
/** Points across a rib at which its surface is worked out. */
const POINTS = 4 * RIB_STEPS;

/**
 * Presses two layers of ribs face to face. Where the second's crest meets the first's, both are crushed
 * flat and burnished; where it meets the hollow, they stay round; between, one flank is pressed into a
 * facet that faces up or down the cloth. Each state returns light of its own.
 */
export function pressRibs(lighting: Lighting): PressedRibs {
  const towards = Math.sin((lighting.from * Math.PI) / 180);
  const light = new Float64Array(LAG_STEPS * RIB_STEPS);
  for (let lag = 0; lag < LAG_STEPS; lag++) {
    lightRib((lag + 0.5) / LAG_STEPS, towards, light.subarray(lag * RIB_STEPS, (lag + 1) * RIB_STEPS));
  }
  return integrals(light, lighting);
}

/** The height of a round rib, 0 in the grooves at whole numbers and 1 on the crest. */
export function roundRib(v: number): number {
  return Math.sqrt(Math.abs(Math.sin(Math.PI * v)) + 1e-4);
}

/** The height of a rib at `v` once another layer, whose crests lie `lag` further down, was pressed on it. */
export function pressedRib(v: number, lag: number): number {
  const own = roundRib(v);
  const above = NIP + 1 - roundRib(v - lag);
  return own > above ? above + SPRING * (own - above) : own;
}

function lightRib(lag: number, towards: number, to: Float64Array): void {
  const step = 1 / POINTS;
  for (let k = 0; k < POINTS; k++) {
    const v = (k + 0.5) * step;
    const own = roundRib(v);
    const here = pressedRib(v, lag);
    const slope = (CROWN * (pressedRib(v + step / 2, lag) - pressedRib(v - step / 2, lag))) / step;
    const crushed = Math.min(1, (own - here) / 0.1);
    to[Math.floor(k / 4)] += lightOf(slope, here, crushed, towards) / 4;
  }
}

function lightOf(slope: number, height: number, crushed: number, towards: number): number {
  // The normal leans up the page where the height grows downward.
  const cosine = (1 - slope * LIGHT_LEAN * towards) / (Math.hypot(1, LIGHT_LEAN) * Math.hypot(1, slope));
  const open = 1 - GROOVE * (1 - height) ** 2;
  const facing = slope + 0.5 * LIGHT_LEAN * towards;
  const gleam = GLEAM * (0.25 + 0.75 * crushed) * Math.exp(-((facing / GLEAM_WIDTH) ** 2));
  return open * Math.max(0, cosine + WRAP) + gleam;
}

function integrals(light: Float64Array, { relief, mark: strength }: Lighting): PressedRibs {
  const across = new Float64Array(RIB_STEPS);
  for (let k = 0; k < light.length; k++) across[k % RIB_STEPS] += light[k] / LAG_STEPS;
  const level = meanOf(across);
  const means = Float64Array.from({ length: LAG_STEPS }, (_, lag) => meanOf(rowOf(light, lag)) - level);
  const marks = sharpened(means);
  const even = new Float32Array(ROW);
  runUp(even, 0, (k) => (relief * (across[k] - level)) / level);
  const mark = new Float32Array(LAG_STEPS * ROW);
  marks.forEach((value, lag) => {
    const row = rowOf(light, lag);
    const shape = (k: number) => (relief * (row[k] - across[k] - means[lag])) / level;
    runUp(mark, lag * ROW, (k) => strength * value + DETAIL * shape(k));
  });
  return { even, mark };
}

/** The means of the lags with steeper slopes and flatter tops, of mean 0 and at most 1. */
function sharpened(means: Float64Array): Float64Array {
  const largest = Math.max(...means.map(Math.abs));
  const bent = means.map((value) => Math.tanh((SHARPNESS * value) / largest));
  const level = meanOf(bent);
  const most = Math.max(...bent.map((value) => Math.abs(value - level)));
  return bent.map((value) => (value - level) / most);
}

function rowOf(light: Float64Array, lag: number): Float64Array {
  return light.subarray(lag * RIB_STEPS, (lag + 1) * RIB_STEPS);
}

function meanOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function runUp(to: Float32Array, offset: number, valueAt: (step: number) => number): void {
  let sum = 0;
  for (let k = 0; k < RIB_STEPS; k++) {
    to[offset + k] = sum;
    sum += valueAt(k) / RIB_STEPS;
  }
  to[offset + RIB_STEPS] = sum;
}
