import { type AnyLayer, encodeByTable, lightOfLoad, loadOfLight, type Rgb } from 'tenter';
import type { Linear } from './linear.ts';

/** How a swatch is laid. */
export type LayAs = 'wash' | 'colour' | 'shade';

/** How much paint a place of a wash has at most, of the mean: paint that lies thicker is as dark. */
const MOST_LOAD = 6;
/** Paper is no darker than this, linear light: or all of a dark scan would be paper. */
const DARKEST_PAPER = 0.02;
/** A load of 1 is so much of the mean amount at least: where most is bare paper, spots alone would carry all paint. */
const LEAST_SHARE = 0.8;
/** Of a wash so many samples are looked at to find its mean, and the mean is halved in on so many times: to 1e-6. */
const LOOKED_AT = 4000;
const TURNS = 22;

/**
 * A swatch as what is laid of it, linear in light (see `Level`): red, green and blue of its own colours; its light
 * over the mean; or the light that paint of its amount returns where a full colour is laid.
 */
export function planesToLay(linear: Linear, layAs: LayAs, paper: Rgb, strength: number): Float32Array[] {
  if (layAs === 'colour') return [...linear.planes];
  if (layAs === 'shade') return [shadeOf(linear, strength)];
  return [washOf(linear, paper, strength)];
}

function shadeOf({ planes: [red, green, blue] }: Linear, strength: number): Float32Array {
  const light = red.map((value, k) => 0.2126 * value + 0.7152 * green[k] + 0.0722 * blue[k]);
  const mean = light.reduce((sum, value) => sum + value, 0) / light.length;
  return light.map((value) => (mean > 1e-6 ? 1 + strength * (value / mean - 1) : 1));
}

/**
 * Amounts of paint by Beer and Lambert's law: -ln of what a layer lets through is in proportion to how much of it
 * there is. Each channel counts by how much the paint takes from it. Amounts are scaled so that all of the swatch,
 * laid on a full colour, returns as much light as that colour did: the tone of the artwork stays.
 */
function washOf({ planes }: Linear, paper: Rgb, strength: number): Float32Array {
  const white = paper.map((value) => Math.max(DARKEST_PAPER, value));
  const [red, green, blue] = planes.map((plane, c) =>
    plane.map((value) => Math.max(0, -Math.log(Math.max(1e-3, value) / white[c]))),
  );
  const taken = [red, green, blue].map((amount) => amount.reduce((sum, value) => sum + value, 0));
  const whole = taken[0] + taken[1] + taken[2];
  // No paint anywhere, or none that is more than the scanner's noise: all of it is as it was.
  if (whole < 3e-3 * red.length) return new Float32Array(red.length).fill(lightOfLoad(1));
  const [r, g, b] = taken.map((sum) => sum / whole);
  const amount = red.map((value, k) => r * value + g * green[k] + b * blue[k]);
  const perLoad = amountOfLoad(amount, strength);
  return amount.map((value) => lightOfLoad(loadOf(value / perLoad, strength)));
}

function loadOf(amount: number, strength: number): number {
  return Math.min(MOST_LOAD, Math.max(0, 1 + strength * (amount - 1)));
}

/** The amount that is a load of 1: the mean light over the swatch is then that of a load of 1. */
function amountOfLoad(amount: Float32Array, strength: number): number {
  const step = Math.max(1, Math.floor(amount.length / LOOKED_AT));
  const wanted = lightOfLoad(1);
  let mean = 0;
  for (let k = 0; k < amount.length; k++) mean += amount[k] / amount.length;
  let [low, high] = [LEAST_SHARE * mean, mean * 4];
  for (let turn = 0; turn < TURNS; turn++) {
    const middle = Math.sqrt(low * high);
    let [light, count] = [0, 0];
    for (let k = 0; k < amount.length; k += step, count++) {
      light += lightOfLoad(loadOf(amount[k] / middle, Math.max(0.05, strength)));
    }
    if (light / count > wanted) high = middle;
    else low = middle;
  }
  return Math.sqrt(low * high);
}

/** Puts what was grown, linear in light, into the planes of a layer. */
export function layPlanes(
  layAs: LayAs,
  strength: number,
  planes: readonly Float32Array[],
  layer: AnyLayer,
): void {
  const [first, second, third] = planes;
  const { load, shade, tint } = layer;
  if (layAs === 'wash' && load) {
    for (let k = 0; k < first.length; k++) load[k] = Math.max(0, loadOfLight(Math.max(1e-6, first[k])));
  } else if (layAs === 'shade' && shade) {
    shade.set(first);
  } else if (tint) {
    for (let k = 0, to = 0; k < first.length; k++, to += 4) {
      tint[to] = encodeByTable(Math.min(1, first[k]));
      tint[to + 1] = encodeByTable(Math.min(1, second[k]));
      tint[to + 2] = encodeByTable(Math.min(1, third[k]));
      tint[to + 3] = strength;
    }
  }
}
