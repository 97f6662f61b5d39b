import {
  type Box,
  type FieldShape,
  fieldShape,
  fractalNoise,
  originsOf,
  type PeriodicField,
  parseHex,
  type RandomStream,
  type Sheet,
} from 'tenter';
import { bake, type Noise, roundCell, sample } from './fields.ts';
import { frameField } from './framed.ts';
import type { WetModel } from './model.ts';
import { hasSecond, type Values } from './parameters.ts';
import { paperTooth, SILT } from './tooth.ts';

/** What varies over several mm is kept on cells so much larger than the sheet's. */
const COARSER = 3;
/** The way, mm, beyond which paint is moved less than it ran, for each mm of `move`. */
const FAR = 3.5;
/** What of the spread of origins is shown as softness, and at most how much, mm for each mm of `move`: a mean of many ways is softer than any. */
const SOFTENED = 0.6;
const SOFTEST = 1;
/** The `move` at which paint is moved as far as it ran. */
const TRUE_MOVE = 1.6;

/** What the pixels are drawn from, out of the sheet as it dried. */
export function dried(
  values: Values,
  box: Box,
  sheet: Sheet,
  random: (name: string) => RandomStream,
): WetModel {
  const noise: Noise = (name, shape, fractal) => fractalNoise(box.lattice, shape, fractal, random(name));
  const { shape } = sheet;
  const { load, x, y, spread } = originsOf(sheet);
  const coarse = fieldShape(box, COARSER * shape.mmPerCellX);
  const logs = load.map((amount) => Math.log(amount + 0.02));
  return {
    lattice: box.lattice,
    load: frameField({ ...shape, values: logs }),
    feathers: noise('feathers', roundCell(0.9), { octaves: 2, gain: 0.7 }),
    lobes: noise('lobes', roundCell(2.6), { octaves: 2, gain: 0.6 }),
    tooth: paperTooth(values.tooth, noise),
    settled: settledPaint(
      coarse,
      values,
      { ...shape, values: logs },
      bake(box, 2, noise('silt', SILT, { octaves: 3, gain: 0.6 })),
    ),
    ...movedPaint(values, shape, x, y, spread),
    ...(sheet.second &&
      hasSecond(values) && {
        second: {
          amount: {
            ...shape,
            values: sheet.second.afloat.map((paint, k) => paint + sheet.second!.settled[k]),
          },
          colour: parseHex(values.second),
        },
      }),
    level: 0,
  };
}

/** Paint moves as it ran on the sheet, in proportion to `move`; a long way is shortened. */
function movedPaint(
  { move }: Values,
  shape: FieldShape,
  x: Float32Array,
  y: Float32Array,
  spread: Float32Array,
): Pick<WetModel, 'moveX' | 'moveY' | 'bleed'> {
  const share = move / TRUE_MOVE;
  const moveX = new Float32Array(x.length);
  const moveY = new Float32Array(x.length);
  const bleed = new Float32Array(x.length);
  for (let k = 0; k < x.length; k++) {
    const far = Math.hypot(x[k], y[k]) * share;
    const shorter = share / (1 + far / (FAR * move + 1e-9));
    moveX[k] = x[k] * shorter;
    moveY[k] = y[k] * shorter;
    const wide = SOFTENED * share * spread[k];
    bleed[k] = wide / (1 + wide / (SOFTEST * move + 1e-9));
  }
  const field = (values: Float32Array): PeriodicField => ({ ...shape, values });
  return { moveX: field(moveX), moveY: field(moveY), bleed: field(bleed) };
}

/** More settles in pools; silky passages are left between; thick paint drowns the tooth. */
function settledPaint(
  shape: FieldShape,
  values: Values,
  logs: PeriodicField,
  silt: PeriodicField,
): PeriodicField {
  const there = sample(logs, shape);
  const pools = sample(silt, shape);
  const share = 0.62 * (values.granulation / 100) * Math.min(1.3, (values.drying / 240) ** 0.25);
  const settled = there.map((log, k) => {
    const pooled = Math.max(0.25, Math.min(1.1, 0.58 + 0.34 * pools[k]));
    return (share * pooled) / (1 + 0.3 * Math.exp(Math.min(2, log)));
  });
  return { ...shape, values: settled };
}
