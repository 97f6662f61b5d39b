import { fullSample } from '../colour/samples.ts';
import type { Strip } from './canvas.ts';

/**
 * Colours of a strip: encoded red, green and blue times opacity, and opacity, 0..1; four numbers a pixel. What is
 * transparent has no colour, whatever stands in the file.
 */
export interface StripColours {
  readonly across: number;
  readonly along: number;
  readonly values: Float32Array;
}

export function coloursOf({ across, along, samples }: Strip): StripColours {
  const full = fullSample(samples);
  const values = new Float32Array(samples.length);
  for (let at = 0; at < samples.length; at += 4) {
    const alpha = samples[at + 3] / full;
    const share = alpha / full;
    values[at] = samples[at] * share;
    values[at + 1] = samples[at + 1] * share;
    values[at + 2] = samples[at + 2] * share;
    values[at + 3] = alpha;
  }
  return { across, along, values };
}

/** The strip in cells of `factor` x `factor` px; what does not fill one at the end is left out. */
export function coarser({ across, along, values }: StripColours, factor: number): StripColours {
  if (factor === 1) return { across, along, values };
  const [width, height] = [Math.floor(across / factor), Math.floor(along / factor)];
  const means = new Float32Array(4 * width * height);
  const share = 1 / factor ** 2;
  for (let y = 0; y < height * factor; y++) {
    const to = 4 * width * Math.floor(y / factor);
    for (let x = 0, at = 4 * y * across; x < width * factor; x++, at += 4) {
      const cell = to + 4 * Math.floor(x / factor);
      for (let channel = 0; channel < 4; channel++) means[cell + channel] += share * values[at + channel];
    }
  }
  return { across: width, along: height, values: means };
}

/** Columns `first` to `first + count - 1` of a strip. */
export function columnsOf(
  { across, along, values }: StripColours,
  first: number,
  count: number,
): StripColours {
  if (first === 0 && count === across) return { across, along, values };
  const some = new Float32Array(4 * count * along);
  for (let j = 0; j < along; j++) {
    const at = 4 * (j * across + first);
    some.set(values.subarray(at, at + 4 * count), 4 * j * count);
  }
  return { across: count, along, values: some };
}

/** How far apart the colours of two cells are, as encoded: 2 at most. */
export function apart(values: Float32Array, one: number, other: number): number {
  const [p, q] = [4 * one, 4 * other];
  const r = values[p] - values[q];
  const g = values[p + 1] - values[q + 1];
  const b = values[p + 2] - values[q + 2];
  const a = values[p + 3] - values[q + 3];
  return Math.sqrt(r * r + g * g + b * b + a * a);
}
