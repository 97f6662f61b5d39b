import { blendColours } from '../colour/blend.ts';
import { parseHex, type Rgb } from '../colour/hex.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import { type AnyLayer, PLANE_CHANNELS, type PlaneName } from '../effect/layer.ts';
import type { HandLayer, HandOptions } from './by-hand.ts';
import { layLayer } from './lay.ts';
import { writeBand } from './working.ts';

/** How far pictures laid by hand are from what the host lays; differences in steps of 255. */
export interface LaidAgain {
  readonly mean: number;
  /** 95 in 100 values are off by no more than this. */
  readonly p95: number;
  readonly largest: number;
  /** The share of values that are off by more than 4. */
  readonly beyond4: number;
  /** Where `largest` is: the pixel's number in the layer, and the artwork colour it lies over. */
  readonly worstPixel: number;
  /** `#rrggbb` */
  readonly worstOver: string;
  /** How many pixels were looked at, each over every colour of the ramp. */
  readonly pixels: number;
}

/** Greys from black to white, for most modes work channel by channel, and the corners of the cube half way out. */
const ARTWORKS: readonly string[] = [
  ...Array.from({ length: 16 }, (_, step) => `#${(step * 17).toString(16).padStart(2, '0').repeat(3)}`),
  ...['#c02020', '#20c020', '#2020c0', '#c0c020', '#20c0c0', '#c020c0'],
];

const MOST_PIXELS = 1 << 15;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Lays the pictures by the W3C formulas over a ramp of artwork colours and holds them against what the
 * host makes of the same colours. Of a large layer some 33,000 pixels spread all over it stand for it.
 */
export function measureLaidAgain(
  layer: AnyLayer,
  made: readonly HandLayer[],
  options: HandOptions,
): LaidAgain {
  const places = spreadPlaces(layer.width * layer.height);
  const sample = sampleOf(layer, places);
  const counts = new Float64Array(256);
  const worst = { off: -1, pixel: 0, over: '' };
  for (const over of ARTWORKS) {
    const wanted = layByHost(sample, parseHex(over), options);
    places.forEach((place, index) => {
      const laid = layByHand(made, place, parseHex(over));
      for (let channel = 0; channel < 3; channel++) {
        const off = Math.abs(Math.round(laid[channel] * 255) - wanted[index * 4 + channel]);
        counts[off]++;
        if (off > worst.off) Object.assign(worst, { off, pixel: place, over });
      }
    });
  }
  return {
    ...figuresOf(counts),
    worstPixel: worst.pixel,
    worstOver: worst.over,
    pixels: places.length,
  };
}

function spreadPlaces(total: number): number[] {
  const count = Math.min(total, MOST_PIXELS);
  return Array.from({ length: count }, (_, k) =>
    count === total ? k : Math.floor(((k * GOLDEN) % 1) * total),
  );
}

function sampleOf(layer: AnyLayer, places: readonly number[]): AnyLayer {
  const planes: { [Name in PlaneName]?: Float32Array } = {};
  for (const name of ['load', 'parting', 'tint', 'shade'] as const) {
    const [plane, channels] = [layer[name], PLANE_CHANNELS[name]];
    if (!plane) continue;
    const picked = new Float32Array(places.length * channels);
    places.forEach((place, index) => {
      for (let k = 0; k < channels; k++) picked[index * channels + k] = plane[place * channels + k];
    });
    planes[name] = picked;
  }
  return { width: places.length, height: 1, ...planes };
}

function layByHost(sample: AnyLayer, artwork: Rgb, options: HandOptions): Uint8Array {
  const pixels = new Uint8Array(sample.width * 4);
  const linear = [...artwork.map(decodeSrgb), 1];
  const working = Float32Array.from({ length: pixels.length }, (_, at) => linear[at & 3]);
  layLayer(working, sample, options);
  writeBand(working, sample.width, pixels, 0);
  return pixels;
}

/** W3C: Co = (1 - as) Cb + as B(Cb, Cs), on an opaque backdrop. */
function layByHand(made: readonly HandLayer[], place: number, artwork: Rgb): Rgb {
  let under = artwork;
  for (const { mode, pixels } of made) {
    const [red, green, blue, alpha] = [0, 1, 2, 3].map((channel) => pixels[place * 4 + channel] / 255);
    if (alpha === 0) continue;
    const blended = blendColours(mode, under, [red, green, blue]);
    const mixed = under.map((value, channel) => (1 - alpha) * value + alpha * blended[channel]);
    under = [mixed[0], mixed[1], mixed[2]];
  }
  return under;
}

function figuresOf(counts: Float64Array): Pick<LaidAgain, 'mean' | 'p95' | 'largest' | 'beyond4'> {
  const total = counts.reduce((sum, count) => sum + count, 0);
  const mean = counts.reduce((sum, count, off) => sum + count * off, 0) / total;
  const largest = counts.findLastIndex((count) => count > 0);
  let [p95, seen] = [0, counts[0]];
  while (seen < 0.95 * total) seen += counts[++p95];
  const beyond4 = counts.subarray(5).reduce((sum, count) => sum + count, 0) / total;
  return { mean, p95, largest, beyond4 };
}
