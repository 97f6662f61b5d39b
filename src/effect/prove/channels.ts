import { type AnyLayer, PLANE_CHANNELS, PLANE_NAMES, type PlaneName } from '../layer.ts';

/** One number per pixel: what the eye may compare. */
export interface Channel {
  readonly name: string;
  readonly values: Float64Array;
  readonly width: number;
  readonly height: number;
  /** A difference below this is not seen: about two 8-bit levels, a fifth of a millimetre moved, or a thousandth raised. */
  readonly least: number;
}

const NAMES = {
  load: ['load'],
  parting: ['red of parting', 'green of parting', 'blue of parting'],
  tint: ['red of tint', 'green of tint', 'blue of tint', 'alpha of tint'],
  shade: ['shade'],
  shift: ['shift across', 'shift down'],
  bleed: ['bleed'],
  relief: ['relief'],
} as const;

/** Two levels of 8 bits, as everywhere in the kit. */
export const LEAST_SEEN = 2 / 255;
const LEAST_SEEN_MM: { readonly [Name in PlaneName]?: number } = { shift: 0.2, bleed: 0.2, relief: 0.001 };

/** The channels of a layer's planes. Colours are multiplied by their alpha: under no alpha no colour is seen. */
export function channelsOf(layer: AnyLayer): Channel[] {
  const { width, height } = layer;
  return PLANE_NAMES.flatMap((plane) => {
    const numbers = layer[plane];
    if (!numbers) return [];
    const count = PLANE_CHANNELS[plane];
    const least = LEAST_SEEN_MM[plane] ?? LEAST_SEEN;
    return NAMES[plane].map((name, channel) => {
      const values = new Float64Array(width * height);
      for (let k = 0; k < values.length; k++) {
        const weight = plane === 'tint' && channel < 3 ? numbers[k * count + 3] : 1;
        values[k] = numbers[k * count + channel] * weight;
      }
      return { name, values, width, height, least };
    });
  });
}

/** The means of blocks of `size` x `size` pixels; what does not fill a block is left out. */
export function blockMeans(channel: Channel, size: number): Channel {
  const width = Math.floor(channel.width / size);
  const height = Math.floor(channel.height / size);
  const values = new Float64Array(width * height);
  for (let y = 0; y < height * size; y++) {
    const row = Math.floor(y / size) * width;
    for (let x = 0; x < width * size; x++) {
      values[row + Math.floor(x / size)] += channel.values[y * channel.width + x] / (size * size);
    }
  }
  return { ...channel, values, width, height };
}

export function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum / values.length;
}

/** The standard deviation. */
export function deviationOf(values: ArrayLike<number>): number {
  const mean = meanOf(values);
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += (values[k] - mean) ** 2;
  return Math.sqrt(sum / values.length);
}

/** The root of the mean square of the differences. */
export function distanceOf(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k] - b[k]) ** 2;
  return Math.sqrt(sum / a.length);
}

/** Pearson's coefficient of correlation; 0 where either does not vary. */
export function correlationOf(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const [meanA, meanB] = [meanOf(a), meanOf(b)];
  let [sum, squaresA, squaresB] = [0, 0, 0];
  for (let k = 0; k < a.length; k++) {
    sum += (a[k] - meanA) * (b[k] - meanB);
    squaresA += (a[k] - meanA) ** 2;
    squaresB += (b[k] - meanB) ** 2;
  }
  return squaresA > 0 && squaresB > 0 ? sum / Math.sqrt(squaresA * squaresB) : 0;
}
