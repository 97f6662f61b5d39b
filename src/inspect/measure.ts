import { type Sides, surprises, type Weights } from './foretell.ts';
import type { Strip } from './strip.ts';

/**
 * What is measured at every place of a line:
 * - `jump`  how far the two sides lie apart once each is foretold from the other: half the
 *   difference of the two surprises. A clean step of height h gives h; a smooth slope gives 0.
 * - `step`  the same, counted only so far as the picture is flat on both sides. A drawn outline that
 *   happens to lie along a line is softened by a pixel or two; a motif cut off is not.
 * - `kink`  half the sum of the two surprises: the slope changes, the tone does not.
 * - `fold`  one surprise alone: at a mirror line both are the same, and are the kink.
 */
export type MeasureName = 'jump' | 'step' | 'kink' | 'fold';

/** One value per channel and place. */
export type Measured = readonly Float32Array[];

/** How many times the slope on the two sides is taken off a step. */
const SLOPE_SHARE = 4;

/** All measures of one line that are asked for. */
export function measureLine(
  { before, after }: Sides,
  weights: readonly Weights[],
  names: readonly MeasureName[],
): Map<MeasureName, Measured> {
  const { count, taps } = before;
  const forward = before.channels.map((samples, channel) =>
    surprise(samples, after.channels[channel], count, taps, weights[channel]),
  );
  const measured = new Map<MeasureName, Measured>();
  if (names.includes('fold')) measured.set('fold', forward);
  if (!names.includes('jump')) return measured;
  const backward = after.channels.map((samples, channel) =>
    surprise(samples, before.channels[channel], count, taps, weights[channel]),
  );
  const jump = combine(forward, backward, -1);
  measured.set('jump', jump);
  measured.set('kink', combine(forward, backward, 1));
  if (names.includes('step')) measured.set('step', cleanStep(jump, before, after));
  return measured;
}

function surprise(
  from: Float32Array,
  beyond: Float32Array,
  count: number,
  taps: number,
  weights: Weights,
): Float32Array {
  const values = new Float32Array(count);
  surprises(from, beyond, count, taps, weights, values);
  return values;
}

/** Half the sum of the two, or half the difference where `sign` is -1. */
function combine(forward: Measured, backward: Measured, sign: 1 | -1): Measured {
  return forward.map((ahead, channel) => {
    const behind = backward[channel];
    const halves = new Float32Array(ahead.length);
    for (let place = 0; place < halves.length; place++)
      halves[place] = 0.5 * (ahead[place] + sign * behind[place]);
    return halves;
  });
}

function cleanStep(jump: Measured, before: Strip, after: Strip): Measured {
  const step = jump.map((values) => values.slice());
  for (let place = 0; place < before.count; place++) {
    const height = size(jump, place);
    const slopes = slope(before, place) + slope(after, place);
    const share = height > 0 ? Math.max(0, 1 - (SLOPE_SHARE * slopes) / height) : 0;
    for (const values of step) values[place] *= share;
  }
  return step;
}

function size(values: Measured, place: number): number {
  if (values.length === 1) return Math.abs(values[0][place]);
  let sum = 0;
  for (const channel of values) sum += channel[place] * channel[place];
  return Math.sqrt(sum);
}

function slope({ channels, taps }: Strip, place: number): number {
  if (taps < 2) return 0;
  if (channels.length === 1) return Math.abs(channels[0][place * taps] - channels[0][place * taps + 1]);
  let sum = 0;
  for (const samples of channels) sum += (samples[place * taps] - samples[place * taps + 1]) ** 2;
  return Math.sqrt(sum);
}
