import type { Rgb } from '../colour/hex.ts';
import { softLight } from '../colour/separable.ts';
import { clampToUnit, decodeSrgb, encodeSrgb } from '../colour/srgb.ts';
import { layLoad } from './load.ts';

/** Encoded artwork values that curves are fitted over, evenly spread. */
const RAMP = Float64Array.from({ length: 33 }, (_, step) => step / 32);
const LINEAR_RAMP = RAMP.map(decodeSrgb);

/**
 * What an encoded value is best multiplied by where `shade` of the light returns: the least squares of
 * `encode(shade * decode(value))` over all values that stay below white. It is close to a factor all
 * along, for encoded sRGB is close to a power.
 */
export function encodedFactor(shade: number): number {
  let [across, along] = [0, 0];
  for (let step = 1; step < RAMP.length; step++) {
    const light = shade * LINEAR_RAMP[step];
    if (light > 1 && along > 0) break;
    across += RAMP[step] * encodeSrgb(clampToUnit(light));
    along += RAMP[step] ** 2;
  }
  return across / along;
}

/** How a change of load is laid: `slope * softLight(value, soft) + offset`, each channel by itself. */
export interface LoadFit {
  readonly soft: Rgb;
  /** The same for all channels: 1 less an alpha. */
  readonly slope: number;
  /** 0 to 1 - slope. */
  readonly offset: Rgb;
}

const SLOPES = Array.from({ length: 33 }, (_, step) => 1 - step / 32);

/**
 * The least squares for paint at `load` times its amount over all artwork values. Soft light is a power
 * from 1/2 to 2, which is what load is; what is thinner than half is paper showing through besides.
 *
 * @param paper Linear.
 */
export function fitLoad(load: number, paper: Rgb): LoadFit {
  const curves = loadCurves(load, paper);
  const isGrey = paper[0] === paper[1] && paper[1] === paper[2];
  const fits = SLOPES.map((slope) => {
    const first = fitChannel(curves[0], slope);
    const channels = isGrey
      ? [first, first, first]
      : [first, ...curves.slice(1).map((c) => fitChannel(c, slope))];
    return { slope, channels, error: channels.reduce((sum, { error }) => sum + error, 0) };
  });
  const { slope, channels } = fits.reduce((best, fit) => (fit.error < best.error ? fit : best));
  const [red, green, blue] = channels;
  return { slope, soft: [red.soft, green.soft, blue.soft], offset: [red.offset, green.offset, blue.offset] };
}

/** What the host makes of the ramp, per channel, encoded. */
function loadCurves(load: number, paper: Rgb): Float64Array[] {
  const working = Float32Array.from({ length: RAMP.length * 4 }, (_, at) => LINEAR_RAMP[at >> 2]);
  layLoad(working, new Float32Array(RAMP.length).fill(load), paper, 1);
  return [0, 1, 2].map((channel) =>
    RAMP.map((_, step) => encodeSrgb(clampToUnit(working[step * 4 + channel]))),
  );
}

interface ChannelFit {
  readonly soft: number;
  readonly offset: number;
  readonly error: number;
}

/** The best soft light by golden section: the error has one valley. */
function fitChannel(curve: Float64Array, slope: number): ChannelFit {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [0, 1];
  for (let round = 0; round < 14; round++) {
    const [left, right] = [high - golden * (high - low), low + golden * (high - low)];
    if (errorAt(curve, slope, left).error < errorAt(curve, slope, right).error) high = right;
    else low = left;
  }
  return errorAt(curve, slope, (low + high) / 2);
}

function errorAt(curve: Float64Array, slope: number, soft: number): ChannelFit {
  let mean = 0;
  let square = 0;
  for (let step = 0; step < RAMP.length; step++) {
    const rest = curve[step] - slope * softLight(RAMP[step], soft);
    mean += rest;
    square += rest * rest;
  }
  mean /= RAMP.length;
  const offset = Math.min(1 - slope, Math.max(0, mean));
  return { soft, offset, error: square - RAMP.length * (2 * mean - offset) * offset };
}
