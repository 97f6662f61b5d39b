import {
  addFractalRow,
  type Box,
  bakeField,
  cellIndex,
  type FieldShape,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
  type Setting,
  type ValuesOf,
} from 'tenter';
import { lightRibs } from './light.ts';
import { setUpLoom } from './loom.ts';
import type { Rgb, SilkLook, SilkModel } from './model.ts';
import { packPicks } from './pack.ts';
import type { PARAMETERS } from './parameters.ts';
import { addSlubs } from './slubs.ts';

type Values = ValuesOf<typeof PARAMETERS>;

/** Weaves the cloth. */
export function weaveSilk({ parameters, box, random, report }: Setting<typeof PARAMETERS>): SilkModel {
  const loom = setUpLoom(box, parameters.ends / 10, parameters.picks / 10);
  const { shape, ends } = loom;
  report({ name: 'picks', value: perCm(shape.height / box.height), unit: 'per cm', asked: parameters.picks });
  report({ name: 'ends', value: perCm(ends / box.width), unit: 'per cm', asked: parameters.ends });
  const thickness = spinWeft(parameters, shape, box, random);
  const moved = packPicks(thickness, shape);
  return {
    lattice: box.lattice,
    shape,
    moved,
    reach: Math.ceil(largest(moved) / shape.mmPerCellY),
    tone: toneOf(thickness, parameters, shape, box, random('tone')),
    gloss: thickness.map((value) => Math.min(1.6, 0.7 + 0.3 * value)),
    ribs: lightRibs({
      from: parameters.light,
      relief: 0.62 * parameters.relief,
      gleam: 0.27 * parameters.lustre,
    }),
    endsPerMm: ends / box.width,
    straying: bakeStraying(box, random('straying')),
    lie: bakeLie(box, random('lie')),
    filaments: fractalNoise(
      box.lattice,
      { along: 9, across: 0.26 },
      { octaves: 2, gain: 0.9, deviation: parameters.filaments / 100 },
      random('filaments'),
    ),
    endTones: fractalNoise(
      box.lattice,
      { along: 0.3, across: 14 },
      { octaves: 1, gain: 1, deviation: 0.022 * parameters.grain },
      random('ends'),
    ),
    look: lookOf(parameters),
  };
}

function lookOf(values: Values): SilkLook {
  return {
    mean: 1 - 0.08 * values.relief,
    grain: 0.13 * values.grain,
    sheen: 0.028 * values.sheen,
    warp: channelsOf(values.warpColour),
    weft: channelsOf(values.weftColour),
    shot: values.shot / 100,
  };
}

/** Drafting of a thread that is reeled from two entangled cocoons: long swells and short ones. */
const SWELLS: readonly (readonly [length: number, share: number])[] = [
  [90, 0.6],
  [26, 0.6],
  [8, 0.53],
];

/** The thickness of every pick at every knot, 1 = the even yarn. */
function spinWeft(
  { unevenness, slubs, slubLength, slubThickness }: Values,
  shape: FieldShape,
  box: Box,
  random: (name: string) => RandomStream,
): Float32Array {
  const thickness = new Float32Array(shape.width * shape.height);
  SWELLS.forEach(([length, share], k) => {
    addAlongPicks(thickness, shape, box, length, (share * unevenness) / 100, random(`swell ${k}`));
  });
  for (let k = 0; k < thickness.length; k++) thickness[k] = Math.exp(thickness[k]);
  const character = { density: slubs / 10000, length: slubLength, thickness: slubThickness };
  addSlubs(thickness, shape, box, character, random('slubs'));
  return thickness;
}

/** Adds noise that runs along the picks, each about its own. */
function addAlongPicks(
  to: Float32Array,
  shape: FieldShape,
  box: Box,
  length: number,
  deviation: number,
  random: RandomStream,
): void {
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const cell = { along: length, across: 0.7 * mmPerCellY };
  const noise = fractalNoise(box.lattice, cell, { octaves: 1, gain: 1, deviation }, random);
  for (let pick = 0; pick < height; pick++) {
    const y = (pick + 0.5) * mmPerCellY;
    addFractalRow(noise, mmPerCellX / 2, mmPerCellX, y, 1, to, width, pick * width);
  }
}

/** How much more light a thread returns than its neighbours when it is e times thicker: it stands out of their shade. */
const HEIGHT_TONE = 0.11;

function toneOf(
  thickness: Float32Array,
  { bars, relief }: Values,
  shape: FieldShape,
  box: Box,
  random: RandomStream,
): Float32Array {
  const tone = new Float32Array(thickness.length);
  addAlongPicks(tone, shape, box, 160, (0.8 * bars) / 100, random);
  addAlongPicks(tone, shape, box, 28, (0.6 * bars) / 100, random);
  const above = (k: number) => cellIndex(shape, k % shape.width, Math.floor(k / shape.width) - 1);
  const below = (k: number) => cellIndex(shape, k % shape.width, Math.floor(k / shape.width) + 1);
  let sum = 0;
  let room = 0;
  for (let k = 0; k < tone.length; k++) {
    const beside = thickness[above(k)] + thickness[below(k)];
    tone[k] = Math.max(0.3, 1 + tone[k] + relief * HEIGHT_TONE * Math.log((2 * thickness[k]) / beside));
    sum += tone[k] * thickness[k];
    room += thickness[k];
  }
  const scale = room / sum;
  for (let k = 0; k < tone.length; k++) tone[k] *= scale;
  return tone;
}

function bakeStraying(box: Box, random: RandomStream): PeriodicField {
  const shape = { octaves: 2, gain: 0.6, deviation: 0.55 };
  const noise = fractalNoise(box.lattice, { along: 7, across: 34 }, shape, random);
  return bakeField(box, 0.9, (x0, step, y, row, count, offset) =>
    addFractalRow(noise, x0, step, y, 1, row, count, offset),
  );
}

function bakeLie(box: Box, random: RandomStream): PeriodicField {
  const noise = fractalNoise(box.lattice, { along: 110, across: 24 }, { octaves: 2, gain: 0.6 }, random);
  return bakeField(box, 1.2, (x0, step, y, row, count, offset) =>
    addFractalRow(noise, x0, step, y, 1, row, count, offset),
  );
}

function largest(values: Float32Array): number {
  let most = 0;
  for (const value of values) most = Math.max(most, Math.abs(value));
  return most;
}

/** `#rrggbb` as three numbers 0..1. */
function channelsOf(text: string): Rgb {
  const bits = Number.parseInt(text.slice(1), 16);
  return [(bits >> 16) / 255, ((bits >> 8) & 255) / 255, (bits & 255) / 255];
}

/** Threads per mm as threads per cm, to three decimals. */
function perCm(perMm: number): number {
  return Math.round(10000 * perMm) / 1000;
}
