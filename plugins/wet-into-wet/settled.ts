import {
  bilinearAt,
  type FieldShape,
  type FractalNoise,
  gaussianBlur,
  type PeriodicField,
  smoothstep,
} from 'tenter';
import type { Feathered } from './feather.ts';
import { type Noise, sample } from './fields.ts';
import type { Flowed } from './flow.ts';
import type { Values } from './parameters.ts';

/**
 * The hollows of the paper: pits at several sizes, so that no one grain shows. The coarsest lie aslant, so that no
 * grid does; the finer ones lie along the rows, where they cost a quarter.
 */
export function paperTooth(size: number, noise: Noise): FractalNoise {
  const layer = (name: string, share: number, direction: number, deviation: number) =>
    noise(
      name,
      { along: share * size, across: 0.8 * share * size, direction },
      { octaves: 1, gain: 1, deviation },
    );
  const layers = [
    layer('tooth', 1.7, 33, 0.6),
    layer('fine tooth', 0.8, 0, 0.6),
    layer('finest tooth', 0.36, 0, 0.5),
  ];
  return {
    octaves: layers.flatMap(({ octaves }) => octaves),
    gains: layers.flatMap(({ gains }) => gains),
  };
}

/** Pigment settles in pools, of some centimetres, and hardly where the wash ran. */
export const SILT = { along: 60, across: 40, direction: 20 };

/**
 * Heavy paint falls into the hollows where a puddle stood long, 0..1: none does where the water ran or the
 * sheet dried fast, for there it went on with the water or stained.
 */
export function stoodWhere(
  { paint }: Flowed,
  pace: Float32Array,
  wet: Float32Array,
  silt: Float32Array,
): Float32Array {
  return silt.map((value, k) => {
    const pooled = Math.log(Math.max(0.05, paint[k]));
    const stood = 0.42 + 0.3 * value + 0.14 * wet[k] + 0.45 * pooled - 0.5 * (pace[k] - 0.4);
    return smoothstep(stood);
  });
}

/** How strongly the tooth shows in paint, as a logarithm per deviation of it. */
export function settledPaint(shape: FieldShape, values: Values, stood: Float32Array): PeriodicField {
  const share = values.granulation / 100;
  const strength = ((0.49 * share) / (1 + share)) * Math.min(1.3, (values.drying / 240) ** 0.25);
  return { ...shape, values: stood.map((still) => strength * (0.12 + still)) };
}

/** How far colours mingle where the painter wetted the artwork, and elsewhere, of the way that edges are moved. */
const MINGLED = 0.5;
const HARDLY = 0.03;

/** Where the painter wetted the artwork, 0..1: a few motifs strongly, many hardly at all. */
export function chosenPlaces(places: PeriodicField, { wetness }: Values): PeriodicField {
  const values = places.values.map((value) => smoothstep((value + 1.3 * (wetness - 0.5) - 0.15) / 0.8));
  return { ...places, values };
}

/** How far colours run into one another, mm. */
export function mingledColours(chosen: PeriodicField, { move }: Values): PeriodicField {
  return { ...chosen, values: chosen.values.map((share) => move * (HARDLY + MINGLED * share * share)) };
}

/** How far edges are moved where the painter did not wet them, of what they are elsewhere. */
const UNTOUCHED = 0.35;

/** Where the paint of each place came from, mm. */
export function movedEdges(
  shape: FieldShape,
  { movedX, movedY }: Flowed,
  { move }: Values,
  chosen: PeriodicField,
  soften: (field: PeriodicField) => PeriodicField,
): { moveX: PeriodicField; moveY: PeriodicField } {
  const blur = (values: Float32Array) => gaussianBlur({ ...shape, values }, 2);
  const [x, y] = [blur(movedX), blur(movedY)];
  for (let k = 0; k < x.values.length; k++) {
    const far = Math.hypot(x.values[k], y.values[k]);
    // Where paint came from lies against the flow; a long way is shortened so that no place folds over.
    const scale = -move / (6 + far);
    x.values[k] *= scale;
    y.values[k] *= scale;
  }
  const [moveX, moveY] = [soften(x), soften(y)];
  const { width, mmPerCellX, mmPerCellY } = moveX;
  for (let k = 0; k < moveX.values.length; k++) {
    const [atX, atY] = [((k % width) + 0.5) * mmPerCellX, (Math.floor(k / width) + 0.5) * mmPerCellY];
    const share = UNTOUCHED + (1 - UNTOUCHED) * bilinearAt(chosen, atX, atY);
    moveX.values[k] *= share;
    moveY.values[k] *= share;
  }
  return { moveX, moveY };
}

/** How far colours mingle, of the way that fingers came: they dissolve towards their tips. */
const DISSOLVED = 0.14;

/** Edges that the flow moved and colours that mingled, and fingers on their finer cells. */
export function movedTogether(
  { moveX, moveY }: { moveX: PeriodicField; moveY: PeriodicField },
  bleed: PeriodicField,
  { x, y }: Feathered,
): { moveX: PeriodicField; moveY: PeriodicField; bleed: PeriodicField } {
  const add = (moved: PeriodicField, more: (k: number) => number) => {
    const values = sample(moved, x);
    for (let k = 0; k < values.length; k++) values[k] += more(k);
    return { ...x, values };
  };
  return {
    moveX: add(moveX, (k) => x.values[k]),
    moveY: add(moveY, (k) => y.values[k]),
    bleed: add(bleed, (k) => DISSOLVED * Math.hypot(x.values[k], y.values[k])),
  };
}
