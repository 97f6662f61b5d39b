import { describe, expect, it } from 'vitest';
import type { StripColours } from './strip-colours.ts';
import { stripDifference } from './strip-difference.ts';

const ACROSS = 30;
const ALONG = 240;

/** A strip of one tone, but for a square of another from row 100 on that is `wide` cells wide. */
function strip(toneAt: (row: number) => number, wide = 0): StripColours {
  const values = new Float32Array(4 * ACROSS * ALONG);
  for (let j = 0, at = 0; j < ALONG; j++)
    for (let i = 0; i < ACROSS; i++, at += 4) {
      const isMotif = i < wide && j >= 100 && j < 140;
      values.fill(isMotif ? 0.2 : toneAt(j), at, at + 3);
      values[at + 3] = 1;
    }
  return { across: ACROSS, along: ALONG, values };
}

/** Red along the strip, every tenth row. */
function redLevels(a: StripColours, b: StripColours): number[] {
  const { levels } = stripDifference(a, b);
  return Array.from({ length: ALONG / 10 }, (_, k) => levels[40 * k]);
}

describe('what two strips mostly differ by', () => {
  it.each([0, 12, 15, 20, 26])('is nothing on one ground, though a motif covers %d of 30 cells', (wide) => {
    const ground = strip(() => 0.8);
    expect(
      redLevels(
        ground,
        strip(() => 0.8, wide),
      ),
    ).toEqual(new Array(ALONG / 10).fill(0));
  });

  it('is the light where that falls off along the strip, beside a motif too', () => {
    const falling = (row: number) => 0.85 - (0.1 * row) / ALONG;
    const levels = redLevels(
      strip(falling),
      strip(() => 0.8, 18),
    );
    // A block has one level, at its middle; beyond the middles of the first and last it goes on level.
    for (let k = 3; k <= 20; k++) expect(levels[k]).toBeCloseTo(falling(10 * k) - 0.8, 2);
  });
});
