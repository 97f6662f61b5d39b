import { type Box, type CellShape, type FieldShape, smoothstep } from 'tenter';
import { bake, type Noise, sample } from './fields.ts';
import type { Fineness } from './fineness.ts';
import { type Flowed, type Push, runFlow } from './flow.ts';
import type { Fronts } from './fronts.ts';
import type { Values } from './parameters.ts';

/** The first wash, what is touched into it, and what the flow makes of both. */
export function flowPaint(
  values: Values,
  box: Box,
  shape: FieldShape,
  charges: Fronts,
  pushes: readonly Push[],
  fineness: Fineness,
  noise: Noise,
  onStep: (done: number) => void,
): Flowed {
  const downhill = (values.downhill * Math.PI) / 180;
  const drawn = (size: number, pull: number): CellShape => ({
    along: size * (1 + pull * values.tilt),
    across: size,
    direction: values.downhill,
  });
  const clouds = bake(box, fineness.flow, noise('clouds', drawn(75, 1.5), { octaves: 4, gain: 0.55 })).values;
  const sheet = bake(box, fineness.flow, noise('sheet', drawn(34, 1.5), { octaves: 3, gain: 0.6 })).values;
  const ease = bake(box, fineness.flow, noise('ease', drawn(9, 5), { octaves: 3, gain: 0.7 })).values;
  const water = new Float64Array(clouds.length);
  const paint = new Float64Array(clouds.length);
  const touched = touchOf(charges, shape);
  const second = charges.strength.some((value) => value > 0) ? new Float64Array(clouds.length) : undefined;
  for (let k = 0; k < clouds.length; k++) {
    water[k] = (0.5 + values.wetness) * Math.exp(0.64 * Math.min(0.6, values.clouds) * sheet[k]);
    paint[k] = Math.exp(0.62 * values.clouds * clouds[k]);
    ease[k] = Math.exp(0.5 * ease[k]);
    water[k] += 0.3 * touched[k];
    if (second) second[k] = touched[k];
  }
  scaleToMean(paint, 1);
  const long = values.drying / 240;
  const run = 42 * values.tilt * Math.sqrt(long);
  return runFlow({
    shape,
    water,
    paint,
    second,
    ease,
    pushes,
    levelling: 26 * long,
    spreading: 9 * long * values.wetness * values.wetness + 0.6,
    run: { x: run * Math.cos(downhill), y: run * Math.sin(downhill) },
    steps: fineness.steps,
    dried: 0.9,
    shield: 2,
    onStep,
  });
}

/** Paint that a loaded brush leaves: full within, feathering out over its rough front. */
function touchOf({ level, strength, reach }: Fronts, shape: FieldShape): Float32Array {
  const amount = new Float32Array(level.values.length);
  for (let k = 0; k < amount.length; k++) {
    amount[k] = strength[k] * smoothstep((2.5 - level.values[k]) / Math.min(9, reach));
  }
  return sample({ ...level, values: amount }, shape);
}

function scaleToMean(values: Float64Array, mean: number): void {
  let sum = 0;
  for (const value of values) sum += value;
  const scale = (mean * values.length) / sum;
  for (let k = 0; k < values.length; k++) values[k] *= scale;
}
