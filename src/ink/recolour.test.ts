import { describe, expect, it } from 'vitest';
import type { Samples } from '../colour/frame.ts';
import { decodeSrgb, encodeSrgb } from '../colour/srgb.ts';
import type { Ink, ShadeCard } from './card.ts';
import { type Colourway, ownColourway } from './colourway.ts';
import { createRecolourer } from './recolour.ts';

const ink = (name: string, colour: Ink['colour'], kind: Ink['kind'] = 'ink'): Ink => ({
  ...{ name, kind, colour },
  covers: true,
  note: '',
});
const CARD: ShadeCard = {
  name: 'sprigs',
  inks: [ink('ground', [243, 234, 216], 'ground'), ink('leaf', [47, 111, 79]), ink('berry', [160, 40, 30])],
};
const DUSK: Colourway = {
  name: 'dusk',
  colours: [
    [43, 47, 69],
    [198, 176, 120],
    [220, 110, 90],
  ],
};

/** Any colours and covers, the same at every run. */
function anything<T extends Samples>(samples: T): T {
  let seed = 5;
  for (let k = 0; k < samples.length; k++) {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    samples[k] = seed >>> 13;
  }
  return samples;
}

function recoloured<T extends Samples>(samples: T, colourway = DUSK): T {
  const copy = samples.slice() as T;
  createRecolourer(CARD, colourway, samples).recolour(copy);
  return copy;
}

/** How many samples differ; a list of all of them takes a test runner minutes. */
function unlike(one: Samples, other: Samples): number {
  let count = Math.abs(one.length - other.length);
  for (let at = 0; at < one.length; at++) count += Number(one[at] !== other[at]);
  return count;
}

const opaque = (...colours: (readonly number[])[]) =>
  Uint8Array.from(colours.flatMap((one) => [...one, 255]));

describe('recolouring', () => {
  it('gives every ink its new colour, at each kind of sample', () => {
    const inks = opaque(...CARD.inks.map(({ colour }) => colour));
    expect(recoloured(inks)).toEqual(opaque(...DUSK.colours));
    const deep = Uint16Array.from(inks, (byte) => byte * 257);
    const found = recoloured(deep);
    const wanted = Uint16Array.from(opaque(...DUSK.colours), (byte) => byte * 257);
    for (let k = 0; k < found.length; k++) expect(Math.abs(found[k] - wanted[k])).toBeLessThanOrEqual(1);
  });
  it('gives the picture back to the byte in the card’s own colours, whatever the card does not explain', () => {
    const bytes = anything(new Uint8Array(60_000));
    expect(unlike(recoloured(bytes, ownColourway(CARD)), bytes)).toBe(0);
    const shorts = anything(new Uint16Array(60_000));
    expect(unlike(recoloured(shorts, ownColourway(CARD)), shorts)).toBe(0);
  });
  it('keeps a soft edge soft: half an ink in linear light is half of its new colour', () => {
    const half = (a: number, b: number) =>
      Math.round(255 * encodeSrgb((decodeSrgb(a / 255) + decodeSrgb(b / 255)) / 2));
    const between = (a: Ink['colour'], b: Ink['colour']) => a.map((byte, channel) => half(byte, b[channel]));
    const edge = opaque(between(CARD.inks[0].colour, CARD.inks[1].colour));
    const found = recoloured(edge);
    const wanted = between(DUSK.colours[0], DUSK.colours[1]);
    wanted.forEach((byte, channel) => {
      expect(Math.abs(found[channel] - byte)).toBeLessThanOrEqual(2);
    });
  });
  it('keeps alpha, and what is wholly transparent', () => {
    const pixels = Uint8Array.from([47, 111, 79, 128, 1, 2, 3, 0]);
    expect([...recoloured(pixels)]).toEqual([...DUSK.colours[1], 128, 1, 2, 3, 0]);
  });
  it('carries grain from a light ink to a dark one as it looks, and lets it grow no more than twice', () => {
    const [r, g, b] = CARD.inks[1].colour;
    const grain = opaque([r + 6, g + 6, b + 6]);
    const [flat] = DUSK.colours.slice(1);
    const found = recoloured(grain);
    for (let channel = 0; channel < 3; channel++) {
      const rest = decodeSrgb(grain[channel] / 255) - decodeSrgb(CARD.inks[1].colour[channel] / 255);
      const carried = decodeSrgb(found[channel] / 255) - decodeSrgb(flat[channel] / 255);
      expect(carried).toBeLessThanOrEqual(2 * rest + 0.004);
    }
  });
  it('finds the same for a pixel wherever it stands', () => {
    for (const pixels of [anything(new Uint8Array(40_000)), anything(new Uint16Array(40_000))]) {
      const whole = recoloured(pixels);
      const parts = pixels.slice();
      const recolourer = createRecolourer(CARD, DUSK, pixels);
      for (const at of [3, 1, 0, 2]) recolourer.recolour(parts.subarray(at * 10_000, (at + 1) * 10_000));
      expect(unlike(parts, whole)).toBe(0);
    }
  });
});
