import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Samples } from '../colour/frame.ts';
import {
  colourDifference,
  decodeSrgb,
  encodeSrgb,
  formatHex,
  labOfSrgb,
  parseHex,
  type Rgb,
} from '../colour/index.ts';
import type { Mixture, ShadeCard } from './index.ts';
import { linearInks } from './linear-inks.ts';
import { mixInto } from './mix.ts';
import { WHOLE } from './mixture.ts';
import { createUnmixer } from './unmix.ts';

const RED = '#b8352f';
const CREAM = '#f3ead8';

function cardOf(...colours: string[]): ShadeCard {
  return {
    name: 'test',
    inks: colours.map((hex, index) => ({
      name: `ink ${index}`,
      kind: index === 0 ? 'ground' : 'ink',
      colour: parseHex(hex).map((channel) => Math.round(channel * 255)) as unknown as [
        number,
        number,
        number,
      ],
      covers: true,
      note: '',
    })),
  };
}

function unmix(card: ShadeCard, samples: Samples): Mixture {
  const places = (3 * samples.length) / 4;
  const mixture = { inks: new Uint8Array(places), amounts: new Uint16Array(places) };
  createUnmixer(card).unmix(samples, mixture);
  return mixture;
}

/** Deep samples of opaque colours, encoded 0..1. */
function deep(colours: readonly Rgb[]): Uint16Array {
  return Uint16Array.from(colours.flatMap((rgb) => [...rgb.map((c) => Math.round(c * 65_535)), 65_535]));
}

function bytes(colours: readonly Rgb[]): Uint8Array {
  return Uint8Array.from(colours.flatMap((rgb) => [...rgb.map((c) => Math.round(c * 255)), 255]));
}

/** Amounts of every ink of a pixel, 0..1. */
function amountsOf({ inks, amounts }: Mixture, pixel: number, count: number): number[] {
  const all = new Array<number>(count).fill(0);
  for (let at = 3 * pixel; at < 3 * pixel + 3; at++) all[inks[at]] += amounts[at] / WHOLE;
  return all;
}

function inLight(parts: readonly (readonly [string, number])[]): Rgb {
  const sum = [0, 1, 2].map((channel) =>
    parts.reduce((light, [hex, amount]) => light + amount * decodeSrgb(parseHex(hex)[channel]), 0),
  );
  return sum.map(encodeSrgb) as unknown as Rgb;
}

function encodedMix(a: string, b: string, share: number): Rgb {
  const [from, to] = [parseHex(a), parseHex(b)];
  return [0, 1, 2].map((c) => from[c] + (to[c] - from[c]) * share) as unknown as Rgb;
}

const steps = (count: number) => Array.from({ length: count + 1 }, (_, index) => index / count);
/** The greatest change of any ink's amount from one pixel to the next. */
function roughest(mixture: Mixture, count: number): number {
  let worst = 0;
  for (let pixel = 1; pixel < mixture.inks.length / 3; pixel++) {
    const [before, here] = [amountsOf(mixture, pixel - 1, count), amountsOf(mixture, pixel, count)];
    for (let ink = 0; ink < count; ink++) worst = Math.max(worst, Math.abs(before[ink] - here[ink]));
  }
  return worst;
}

describe('unmixing', () => {
  it('takes each ink of the card for itself, whole', () => {
    const colours = [CREAM, RED, '#d98f86', '#1d3557', '#2f6f4f', '#e0b040', '#0a0a0a', '#ffffff'];
    const mixture = unmix(cardOf(...colours), bytes(colours.map((hex) => parseHex(hex))));
    colours.forEach((_, index) => {
      expect(mixture.inks[3 * index]).toBe(index);
      expect([...mixture.amounts.subarray(3 * index, 3 * index + 3)]).toEqual([WHOLE, 0, 0]);
    });
  });
  it('gives back the amounts of three inks mixed in light', () => {
    const card = cardOf(CREAM, RED, '#1d3557');
    const amounts = [0.4, 0.35, 0.25];
    const colour = inLight([
      [CREAM, 0.4],
      [RED, 0.35],
      ['#1d3557', 0.25],
    ]);
    amountsOf(unmix(card, deep([colour])), 0, 3).forEach((amount, ink) => {
      expect(amount).toBeCloseTo(amounts[ink], 2);
    });
  });
  it.each(['light', 'encoded'])(
    'keeps a soft edge mixed in %s values a mix of its two inks, whatever lies between',
    (kind) => {
      // The third lies near the way from red to ground, the fourth is a dark that would mend an encoded mix.
      const card = cardOf(CREAM, RED, '#e2a49a', '#40302a');
      for (const share of steps(60)) {
        const colour =
          kind === 'light'
            ? inLight([
                [CREAM, 1 - share],
                [RED, share],
              ])
            : encodedMix(CREAM, RED, share);
        const pure = colourDifference(labOfSrgb(colour), labOfSrgb(parseHex('#e2a49a')));
        if (pure < 3) continue;
        const all = amountsOf(unmix(card, bytes([colour])), 0, 4);
        expect(all[2] + all[3], `${kind} at ${share}`).toBeLessThan(0.02);
      }
    },
  );
  it('keeps a wash smooth where the three that make it change', () => {
    const card = cardOf(CREAM, RED, '#1d3557', '#2f6f4f', '#e0b040');
    // From a mix of the first three, over a mix of the ground and the blue, to a mix with the green.
    const ways: [string, number][][] = [
      [
        [CREAM, 0.5],
        [RED, 0.3],
        ['#1d3557', 0.2],
      ],
      [
        [CREAM, 0.7],
        ['#1d3557', 0.3],
      ],
      [
        [CREAM, 0.4],
        ['#1d3557', 0.3],
        ['#2f6f4f', 0.3],
      ],
    ];
    const lights = ways.map((parts) => inLight(parts).map(decodeSrgb));
    const colours = steps(2000).map((step): Rgb => {
      const leg = Math.min(1, Math.floor(2 * step));
      const part = 2 * step - leg;
      return lights[leg].map((light, c) => encodeSrgb(light + (lights[leg + 1][c] - light) * part)) as never;
    });
    expect(roughest(unmix(card, deep(colours)), 5)).toBeLessThan(0.03);
  });
  it('is made of three inks that add up, and the same whatever came before', () => {
    const card = cardOf(CREAM, RED, '#1d3557', '#2f6f4f', '#e0b040', '#0a0a0a');
    const byte = fc.integer({ min: 0, max: 255 });
    const pixel = fc.tuple(byte, byte, byte, byte);
    fc.assert(
      fc.property(fc.array(pixel, { minLength: 1, maxLength: 40 }), (pixels) => {
        const whole = unmix(card, Uint8Array.from(pixels.flat()));
        pixels.forEach((one, index) => {
          const alone = unmix(card, Uint8Array.from(one));
          expect([...whole.inks.subarray(3 * index, 3 * index + 3)]).toEqual([...alone.inks]);
          expect([...whole.amounts.subarray(3 * index, 3 * index + 3)]).toEqual([...alone.amounts]);
          expect(alone.amounts.reduce((sum, amount) => sum + amount)).toBe(WHOLE);
          expect(alone.amounts[0]).toBeGreaterThanOrEqual(alone.amounts[1]);
        });
      }),
      { seed: 16, numRuns: 25 },
    );
  });
  it('lays what is translucent over the ground, and over white where there is none', () => {
    const card = cardOf(CREAM, RED);
    expect(amountsOf(unmix(card, Uint8Array.of(0, 0, 0, 0)), 0, 2)).toEqual([1, 0]);
    const white = cardOf('#000000', '#ffffff');
    const inks = white.inks.map((ink) => ({ ...ink, kind: 'ink' as const }));
    expect(amountsOf(unmix({ ...white, inks }, Uint8Array.of(0, 0, 0, 0)), 0, 2)).toEqual([0, 1]);
  });
  it('works with one ink, two, and the same colour twice', () => {
    expect(amountsOf(unmix(cardOf(RED), Uint8Array.of(9, 200, 30, 255)), 0, 1)).toEqual([1]);
    const grey = Uint8Array.of(188, 188, 188, 255);
    const half = amountsOf(unmix(cardOf('#ffffff', '#000000'), grey), 0, 2);
    expect(half[0]).toBeCloseTo(0.503, 2);
    const twice = amountsOf(unmix(cardOf(RED, RED, '#000000'), bytes([parseHex(RED)])), 0, 3);
    expect(twice[0] + twice[1]).toBe(1);
  });
  it('comes near to what is mixed of five inks, much nearer than the nearest single ink', () => {
    const card = cardOf(CREAM, RED, '#1d3557', '#2f6f4f', '#e0b040');
    const colours = Array.from({ length: 400 }, (_, index): Rgb => {
      const parts = card.inks.map((_, ink) => ((index + 1) * Math.sqrt(2 + 3 * ink)) % 1);
      const sum = parts.reduce((all, part) => all + part);
      return inLight(
        parts.map((part, ink) => [formatHex(card.inks[ink].colour.map((c) => c / 255) as never), part / sum]),
      );
    });
    const samples = bytes(colours);
    const again = new Uint8Array(samples.length);
    mixInto(unmix(card, samples), linearInks(card), again);
    let [mixed, single] = [0, 0];
    colours.forEach((colour, index) => {
      const lab = labOfSrgb(colour);
      const at = 4 * index;
      mixed += colourDifference(lab, labOfSrgb([again[at] / 255, again[at + 1] / 255, again[at + 2] / 255]));
      single += Math.min(
        ...card.inks.map((ink) => colourDifference(lab, labOfSrgb(ink.colour.map((c) => c / 255) as never))),
      );
    });
    expect(mixed / 400).toBeLessThan(2.5);
    expect(mixed).toBeLessThan(0.15 * single);
  });
  it('closes as the tile does: a picture moved round its edges has the same mixes, moved', () => {
    const card = cardOf(CREAM, RED, '#1d3557', '#2f6f4f');
    const [width, height] = [24, 18];
    const at = (x: number, y: number): number[] => [
      Math.round(128 + 110 * Math.sin((2 * Math.PI * x) / width)),
      Math.round(128 + 90 * Math.cos((2 * Math.PI * (y + x * 3)) / height)),
      Math.round(128 + 70 * Math.sin((2 * Math.PI * y) / height)),
      255,
    ];
    const picture = (dx: number, dy: number) =>
      Uint8Array.from(
        Array.from({ length: width * height }, (_, pixel) =>
          at(((pixel % width) + dx) % width, (Math.floor(pixel / width) + dy) % height),
        ).flat(),
      );
    const [still, moved] = [unmix(card, picture(0, 0)), unmix(card, picture(7, 5))];
    for (let pixel = 0; pixel < width * height; pixel++) {
      const x = ((pixel % width) + 7) % width;
      const from = 3 * (((Math.floor(pixel / width) + 5) % height) * width + x);
      expect([...moved.inks.subarray(3 * pixel, 3 * pixel + 3)]).toEqual([
        ...still.inks.subarray(from, from + 3),
      ]);
      expect([...moved.amounts.subarray(3 * pixel, 3 * pixel + 3)]).toEqual([
        ...still.amounts.subarray(from, from + 3),
      ]);
    }
  });
  it('refuses a card of no inks, and of forty', () => {
    expect(() => createUnmixer(cardOf())).toThrow('none');
    expect(() => createUnmixer(cardOf(...new Array<string>(40).fill(RED)))).toThrow(
      'Expected 1 to 24 inks for the shade card "test" but received 40.',
    );
  });
});

describe('mixing', () => {
  it('adds light: half white and half black is 188 (188.0 by the curve of IEC 61966-2-1)', () => {
    const mixture = { inks: Uint8Array.of(0, 1, 0), amounts: Uint16Array.of(32_768, 32_767, 0) };
    const out = new Uint8Array(4);
    mixInto(mixture, Float32Array.of(1, 1, 1, 0, 0, 0), out);
    expect([...out]).toEqual([188, 188, 188, 255]);
  });
});
