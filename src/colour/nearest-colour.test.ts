import { differenceCiede2000, parse, type Rgb } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatHex } from './hex.ts';
import { nearestColour } from './nearest-colour.ts';

const hex = fc
  .tuple(
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.double({ min: 0, max: 1, noNaN: true }),
  )
  .map((encoded) => formatHex(encoded));
const difference = differenceCiede2000();

/** Every colour held against the one asked for, by an independent library. */
function differences(colours: readonly string[], asked: string): number[] {
  return colours.map((colour) => difference(asked, colour));
}

describe('the nearest of n colours', () => {
  it('is that of trying every one', () => {
    const palettes = fc.array(hex, { minLength: 1, maxLength: 40 });
    const property = fc.property(
      palettes,
      fc.array(hex, { minLength: 20, maxLength: 20 }),
      (colours, asked) => {
        const nearest = nearestColour(colours);
        for (const one of asked) {
          const { r, g, b } = parse(one) as Rgb;
          const tried = differences(colours, one);
          // Two within a thousandth of a just visible difference are as near.
          expect(tried[nearest(r, g, b)]).toBeLessThan(Math.min(...tried) + 1e-3);
        }
      },
    );
    fc.assert(property, { seed: 27, numRuns: 200 });
  });
  it('is found among neighbours that plain distances would confuse', () => {
    const colours = ['#0000ff', '#3a2fb0', '#102060', '#5a5aff', '#808080', '#7f8081', '#000000', '#010101'];
    const nearest = nearestColour(colours);
    for (const asked of ['#2020c0', '#181870', '#7f8080', '#000001', '#4b46d8']) {
      const { r, g, b } = parse(asked) as Rgb;
      const tried = differences(colours, asked);
      expect(nearest(r, g, b)).toBe(tried.indexOf(Math.min(...tried)));
    }
  });
  it('is the first of equals, and each colour is its own', () => {
    const colours = ['#aa0000', '#00aa00', '#aa0000', '#00aa00'];
    const nearest = nearestColour(colours);
    expect(nearest(0xaa / 255, 0, 0)).toBe(0);
    expect(nearest(0, 0xaa / 255, 0)).toBe(1);
  });
  it('takes what lies outside for the border', () => {
    const nearest = nearestColour(['#000000', '#ffffff']);
    expect([nearest(-1, -0.5, 0), nearest(1.5, 1.0000001, 9)]).toEqual([0, 1]);
  });
  it('wants a colour', () => {
    expect(() => nearestColour([])).toThrow('Expected one colour or more for nearestColour');
    expect(() => nearestColour(['red'])).toThrow('a colour such as');
  });
});
