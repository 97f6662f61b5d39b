import { describe, expect, it } from 'vitest';
import type { BlendMode } from '../colour/blend.ts';
import type { Rgb } from '../colour/hex.ts';
import { decodeSrgb, encodeSrgb } from '../colour/srgb.ts';
import type { AnyLayer } from '../effect/layer.ts';
import { type LayOptions, layLayer } from './lay.ts';
import { layThrough } from './lay-through.ts';
import { LEAST_REFLECTANCE } from './load.ts';
import { readBand, writeBand } from './working.ts';

/** More than a block of pixels, and no multiple of it. */
const [WIDTH, HEIGHT] = [211, 13];
const COUNT = WIDTH * HEIGHT;
const PAPER: Rgb = [1, 0.9, 0.7];

/** Numbers spread evenly over 0..1. */
const spread = (length: number, step: number) =>
  Float32Array.from({ length }, (_, k) => (k * step) % 1) as Float32Array;

/** Every value in every channel; every fifth pixel translucent, some of them clear. */
function pixelsOf(Kind: typeof Uint8Array | typeof Uint16Array) {
  const full = Kind === Uint8Array ? 255 : 65_535;
  const samples = new Kind(4 * (COUNT + 3));
  for (let k = 0; k < samples.length; k++)
    samples[k] = k % 4 === 3 && k % 5 !== 0 ? full : (k * 7919) % (full + 1);
  return samples;
}

/** Loads of 0 to 3, partings of -0.5 to 0.5 and shades of 0 to 1.4, some of them neutral; tints of all alphas. */
const PLANES = {
  load: spread(COUNT, 0.618).map((at, k) => (k % 7 === 0 ? 1 : 3 * at)),
  parting: spread(3 * COUNT, 0.557).map((at, k) => (k % 11 === 0 ? 0 : at - 0.5)),
  tint: spread(4 * COUNT, 0.414).map((at, k) => (k % 28 === 3 ? 0 : at)),
  shade: spread(COUNT, 0.732).map((at, k) => (k % 9 === 0 ? 1 : 1.4 * at)),
};

function layerOf(names: string): AnyLayer {
  const planes = Object.entries(PLANES).filter(([name]) => names.includes(name));
  return { width: WIDTH, height: HEIGHT, ...Object.fromEntries(planes) };
}

/** Every set of planes there is. */
const NAMES = Object.keys(PLANES);
const COMBINATIONS = Array.from({ length: 2 ** NAMES.length - 1 }, (_, k) =>
  NAMES.filter((_, bit) => ((k + 1) >> bit) & 1).join(' '),
);
const DEPTHS = [Uint8Array, Uint16Array];

describe.each(DEPTHS)('on %o', (Kind) => {
  const source = pixelsOf(Kind);

  it.each([...COMBINATIONS, ''])('is reading, laying and writing, to the bit: %s', (names) => {
    const layer = layerOf(names);
    const mask = spread(COUNT, 0.302).map((at, k) => (k % 5 === 0 ? 0 : at));
    for (const strength of [0, 0.37, 1, mask])
      for (const blend of ['normal', 'multiply', 'luminosity'] as const) {
        const options = { blend, paper: PAPER, strength };
        const [through, wanted] = [new Kind(source.length), new Kind(source.length)];
        layThrough(source, 8, layer, options, through, 4);
        const working = readBand(source, 8, COUNT, new Float32Array(4 * COUNT));
        layLayer(working, layer, options);
        writeBand(working, COUNT, wanted, 4);
        // Told by a count: comparing arrays of this length element by element takes a minute in all.
        expect(through.filter((sample, k) => sample !== wanted[k])).toHaveLength(0);
      }
  });

  it.each(COMBINATIONS)('is the exact formulas, to half a step: %s', (names) => {
    const layer = layerOf(names);
    const full = Kind === Uint8Array ? 255 : 65_535;
    for (const blend of ['normal', 'multiply'] as const) {
      const options: LayOptions = { blend, paper: PAPER, strength: 0.8 };
      const laid = new Kind(4 * COUNT);
      layThrough(source, 0, layer, options, laid, 0);
      let furthest = 0;
      for (let at = 0; at < laid.length; at += 4) {
        const wanted = layExactly(
          [...source.subarray(at, at + 4)].map((sample) => sample / full),
          at / 4,
          layer,
          blend,
        );
        for (let k = 0; k < 4; k++) furthest = Math.max(furthest, Math.abs(laid[at + k] - full * wanted[k]));
      }
      // The tables of `srgb.ts` and `power.ts` add to the half step that rounding takes.
      expect(furthest).toBeLessThan(0.5 + (Kind === Uint8Array ? 0.03 : 0.1));
      expect(furthest).toBeGreaterThan(0.45);
    }
  });
});

/** A pixel laid by the formulas that the planes are defined by, without a table, at strength 0.8; all encoded. */
function layExactly(pixel: readonly number[], index: number, layer: AnyLayer, blend: BlendMode): number[] {
  const clamp = (value: number) => Math.min(Math.max(value, 0), 1);
  const strength = Math.fround(0.8);
  let light = pixel.slice(0, 3).map(decodeSrgb);
  let alpha = pixel[3];
  if (layer.load || layer.parting) {
    light = light.map((own, k) => {
      const parted = layer.parting ? layer.parting[3 * index + k] : 0;
      const amount = Math.max(0, 1 + ((layer.load?.[index] ?? 1) - 1 + parted) * strength);
      const laid = PAPER[k] * (Math.max(own, LEAST_REFLECTANCE) / PAPER[k]) ** amount;
      return own >= LEAST_REFLECTANCE ? laid : Math.max(0, laid - amount * (LEAST_REFLECTANCE - own));
    });
  }
  if (layer.tint) {
    const [red, green, blue, opacity] = layer.tint.subarray(4 * index, 4 * index + 4);
    const cover = opacity * strength;
    const union = cover + alpha * (1 - cover);
    light = light.map((own, k) => {
      if (cover === 0) return own;
      const colour = [red, green, blue][k];
      const backdrop = encodeSrgb(clamp(own));
      const blended = blend === 'multiply' ? backdrop * colour : colour;
      const mixed = cover * (1 - alpha) * colour + cover * alpha * blended + (1 - cover) * alpha * backdrop;
      return decodeSrgb(clamp(mixed / union)) + Math.max(own - 1, 0) * (1 - cover);
    });
    if (cover > 0) alpha = union;
  }
  if (layer.shade) light = light.map((own) => own * (1 + (layer.shade![index] - 1) * strength));
  return [...light.map((own) => encodeSrgb(clamp(own))), alpha];
}
