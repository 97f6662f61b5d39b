import { BYTE_OF_LINEAR, clampToUnit } from '../colour/srgb.ts';
import type { AnyLayer } from '../effect/layer.ts';
import { type LayOptions, layLayer } from './lay.ts';
import { readLoaded } from './load.ts';
import { shadeBytes } from './shade-bytes.ts';
import { type Strength, strengthList } from './strength.ts';
import { layTint, layTintOnBytes } from './tint.ts';
import { type Pixels, readBand, writeBand } from './working.ts';

/** Pixels that are read, laid and written at once: few enough for all their numbers to stay near the processor. */
const BLOCK = 1024;
const WORKING = new Float32Array(4 * BLOCK);
/** The load of an effect that parts hues and leaves their sum alone. */
const ONES = new Float32Array(BLOCK).fill(1);

/**
 * Lays one layer over pixels as they stand: what `readBand`, `layLayer` and `writeBand` come to one after the
 * other, bit for bit. Bytes take a shorter way: what depends on a byte alone is looked up, and light is
 * shaded as it is written. Planes that move paint, shift and bleed, have no place here.
 *
 * Tried and left: loads and tints in WebAssembly, the channels of a pixel in two registers of two doubles. Bit for
 * bit it took 15 and 18 % off the whole way, where bytes take 28 and 13 %, for a second copy of the power tables'
 * and of the tint's formulas. Small blocks alone, without what bytes spare, took nothing off, at 8 bits or at 16.
 *
 * @param source RGBA samples, 8 or 16 bit; the layer's first pixel is that whose R is sample `from`.
 * @param target As deep; its sample `to` is that pixel's R.
 */
export function layThrough(
  source: Pixels,
  from: number,
  layer: AnyLayer,
  options: LayOptions,
  target: Pixels,
  to: number,
): void {
  const { load, parting, tint, shade } = layer;
  const { strength } = options;
  const count = layer.width * layer.height;
  if (strength === 0) {
    target.set(source.subarray(from, from + 4 * count), to);
    return;
  }
  const isDeep = source.BYTES_PER_ELEMENT > 1;
  if (shade && !load && !parting && !tint && !isDeep) {
    shadeBytes(source as Uint8Array, from, shade, strength, target as Uint8Array, to);
    return;
  }
  const layPart = isDeep ? layShorts : layBytes;
  for (let first = 0; first < count; first += BLOCK) {
    const end = Math.min(BLOCK + first, count);
    const part = {
      width: end - first,
      height: 1,
      load: load?.subarray(first, end),
      parting: parting?.subarray(3 * first, 3 * end),
      tint: tint?.subarray(4 * first, 4 * end),
      shade: shade?.subarray(first, end),
    };
    const partStrength = typeof strength === 'number' ? strength : strength.subarray(first, end);
    layPart(source, from + 4 * first, part, { ...options, strength: partStrength }, target, to + 4 * first);
  }
}

type LayPart = typeof layThrough;

const layShorts: LayPart = (source, from, layer, options, target, to) => {
  readBand(source, from, layer.width, WORKING);
  layLayer(WORKING, layer, options);
  writeBand(WORKING, layer.width, target, to);
};

const layBytes: LayPart = (source, from, layer, { blend, paper, strength }, target, to) => {
  const { parting, tint, shade, width } = layer;
  const load = layer.load ?? (parting && ONES.subarray(0, width));
  const bytes = source as Uint8Array;
  if (load) readLoaded(bytes, from, WORKING, load, paper, strength, parting);
  else readBand(bytes, from, width, WORKING);
  if (tint && load) layTint(WORKING, tint, blend, strength);
  else if (tint) layTintOnBytes(bytes, from, WORKING, tint, blend, strength);
  if (shade) writeShaded(shade, strength, target, to);
  else writeBand(WORKING, width, target, to);
};

/** `layShade` and `writeBand` at once, into bytes. */
function writeShaded(shade: Float32Array, strength: Strength, target: Pixels, start: number): void {
  const { list, step } = strengthList(strength);
  const [working, byte] = [WORKING, BYTE_OF_LINEAR];
  for (let pixel = 0, from = 0, to = start; pixel < shade.length; pixel++, from += 4, to += 4) {
    const light = 1 + (shade[pixel] - 1) * list[pixel * step];
    target[to] = byte[placeOf(working[from] * light)];
    target[to + 1] = byte[placeOf(working[from + 1] * light)];
    target[to + 2] = byte[placeOf(working[from + 2] * light)];
    target[to + 3] = (clampToUnit(working[from + 3]) * 255 + 0.5) | 0;
  }
}

/** Where a light stands in `BYTE_OF_LINEAR`. */
function placeOf(light: number): number {
  return (clampToUnit(Math.fround(light)) * 65_536 + 0.5) | 0;
}
