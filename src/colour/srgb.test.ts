import { converter } from 'culori';
import { describe, expect, it } from 'vitest';
import {
  byteOfLinear,
  clampToUnit,
  decodeByTable,
  decodeSrgb,
  encodeByTable,
  encodeSrgb,
  LINEAR_OF_BYTE,
  linearOfShortTable,
  shortOfLinear,
} from './srgb.ts';

/** Places 0..1, dense near black where the curve is steepest, and each as a band stores it. */
const PLACES = Array.from({ length: 200_001 }, (_, index) => Math.fround((index / 200_000) ** 2));

const worst = (error: (place: number) => number) => PLACES.reduce((most, x) => Math.max(most, error(x)), 0);

describe('the sRGB curve', () => {
  // Computed with culori 4.0.2, an implementation of IEC 61966-2-1 that is not ours.
  it.each([
    [1, 0.000303527],
    [10, 0.0030352698],
    [11, 0.0033465358],
    [32, 0.0144438436],
    [64, 0.0512694584],
    [96, 0.1169706678],
    [118, 0.1811642442],
    [127, 0.2122307574],
    [128, 0.2158605001],
    [188, 0.502886458],
    [224, 0.7454042095],
    [254, 0.9911020971],
  ])('decodes byte %i', (byte, linear) => {
    expect(decodeSrgb(byte / 255)).toBeCloseTo(linear, 9);
  });

  it('agrees with culori on every byte', () => {
    const toLinear = converter('lrgb');
    for (let byte = 0; byte < 256; byte++) {
      const theirs = toLinear({ mode: 'rgb', r: byte / 255, g: 0, b: 0 }).r;
      expect(decodeSrgb(byte / 255)).toBeCloseTo(theirs, 12);
      expect(LINEAR_OF_BYTE[byte]).toBe(Math.fround(decodeSrgb(byte / 255)));
    }
  });

  // The documentation of the Python library "colour" gives this figure for eotf_inverse_sRGB(0.18).
  it('encodes a mid grey', () => {
    expect(encodeSrgb(0.18)).toBeCloseTo(0.4613561, 7);
  });

  // IEC 61966-2-1: the straight piece ends at 0.04045, not at the 0.03928 of older drafts.
  it('is straight up to and including 0.04045', () => {
    expect(decodeSrgb(0.04045)).toBe(0.04045 / 12.92);
    expect(decodeSrgb(0.0405)).not.toBe(0.0405 / 12.92);
  });

  // (1 + 0) / 2 in linear light encodes to 187.516 of 255; averaged as stored it would be 127.5.
  it('puts the mean of black and white at 188', () => {
    expect(255 * encodeSrgb((LINEAR_OF_BYTE[0] + LINEAR_OF_BYTE[255]) / 2)).toBeCloseTo(187.516, 3);
    expect(byteOfLinear(0.5)).toBe(188);
  });
});

describe('the tables', () => {
  it('bring every byte back', () => {
    for (let byte = 0; byte < 256; byte++) expect(byteOfLinear(LINEAR_OF_BYTE[byte])).toBe(byte);
  });

  it('bring every 16-bit value back', () => {
    const wrong = linearOfShortTable().reduce(
      (count, x, short) => count + Number(shortOfLinear(x) !== short),
      0,
    );
    expect(wrong).toBe(0);
  });

  it('are off by no more than they say', () => {
    expect(worst((x) => Math.abs(encodeByTable(x) - encodeSrgb(x)))).toBeLessThan(2e-7);
    expect(worst((x) => Math.abs(decodeByTable(x) - decodeSrgb(x)))).toBeLessThan(1e-7);
    expect(worst((x) => Math.abs(byteOfLinear(x) - 255 * encodeSrgb(x)))).toBeLessThan(0.526);
    expect(worst((x) => Math.abs(shortOfLinear(x) - 65_535 * encodeSrgb(x)))).toBeLessThan(0.52);
  });

  it('never step down', () => {
    for (let index = 1; index < PLACES.length; index++) {
      const [before, after] = [PLACES[index - 1], PLACES[index]];
      if (byteOfLinear(after) < byteOfLinear(before) || shortOfLinear(after) < shortOfLinear(before))
        throw new Error(`falls at ${after}`);
    }
  });

  it('clamp, and take what is not a number for black', () => {
    expect([-1, -0, 1.5, Number.POSITIVE_INFINITY, Number.NaN].map(byteOfLinear)).toEqual([
      0, 0, 255, 255, 0,
    ]);
    expect([-1, -0, 1.5, Number.POSITIVE_INFINITY, Number.NaN].map(shortOfLinear)).toEqual([
      0, 0, 65_535, 65_535, 0,
    ]);
    expect([-1, 0.25, 2, Number.NaN].map(clampToUnit)).toEqual([0, 0.25, 1, 0]);
  });
});
