import { describe, expect, it } from 'vitest';
import { nameOfColour, namesOfColours } from './names.ts';

describe('names of colours', () => {
  it.each([
    ['white', [255, 255, 255]],
    ['black', [10, 10, 10]],
    ['grey', [120, 120, 120]],
    ['bright red', [220, 20, 30]],
    ['green', [80, 140, 90]],
    ['deep blue', [38, 58, 145]],
    ['deep brown', [110, 72, 45]],
  ] as const)('%s', (name, colour) => {
    expect(nameOfColour(colour)).toBe(name);
  });
  it('are of two words or three for every colour', () => {
    for (let code = 0; code < 2 ** 24; code += 9_973) {
      const name = nameOfColour([code >> 16, (code >> 8) & 255, code & 255]);
      expect(name).toMatch(/^[a-z]+( [a-z]+){0,3}$/);
      expect(name.length).toBeLessThanOrEqual(24);
    }
  });
  it('are never alike', () => {
    const names = namesOfColours([
      [80, 140, 90],
      [82, 141, 90],
      [84, 142, 92],
    ]);
    expect(names).toEqual(['green', 'green 2', 'green 3']);
  });
});
