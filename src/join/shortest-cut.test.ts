import { describe, expect, it } from 'vitest';
import { hashUnit } from '../field/hash.ts';
import type { CutCosts } from './cut-costs.ts';
import { type CutKind, shortestCut, sidesOf } from './shortest-cut.ts';

function randomCosts(seed: number, width: number, length: number): CutCosts {
  const costs = (salt: number) =>
    Uint16Array.from(
      { length: width * length },
      (_, k) => 1 + Math.floor(40 * hashUnit(seed + salt, k, 0) ** 3),
    );
  return { width, length, across: costs(1), along: costs(2) };
}

/** As a strip is that is laid over itself turned: the same costs at both places. */
function turnedCosts(costs: CutCosts): CutCosts {
  const { width, length } = costs;
  const [across, along] = [costs.across.slice(), costs.along.slice()];
  for (let j = 0; j < length; j++)
    for (let i = 0; i < width; i++) {
      if (i > 0) across[width - i + (length - 1 - j) * width] = across[i + j * width];
      along[width - 1 - i + ((length - j) % length) * width] = along[i + j * width];
    }
  return { width, length, across, along };
}

/** What parting the cells costs where `sides` says which is which. */
function priceOf(
  { width, length, across, along }: CutCosts,
  isRound: boolean,
  sideOf: (cell: number) => number,
) {
  let price = 0;
  for (let j = 0, cell = 0; j < length; j++)
    for (let i = 0; i < width; i++, cell++) {
      if (i > 0 && sideOf(cell) !== sideOf(cell - 1)) price += across[cell];
      const above = j > 0 ? cell - width : isRound ? cell + width * (length - 1) : -1;
      if (above >= 0 && sideOf(cell) !== sideOf(above)) price += along[cell];
    }
  return price;
}

/** The least of all ways to give each cell between the long sides to either. */
function leastOfAll(costs: CutCosts, kind: CutKind): number {
  const { width, length } = costs;
  const free = (width - 2) * length;
  let least = Number.POSITIVE_INFINITY;
  for (let bits = 0; bits < 2 ** free; bits++) {
    const sideOf = (cell: number) => {
      const i = cell % width;
      if (i === 0 || i === width - 1) return i === 0 ? 0 : 1;
      return (bits >> (i - 1 + Math.floor(cell / width) * (width - 2))) & 1;
    };
    if (kind === 'turned') {
      let isSymmetric = true;
      for (let cell = 0; cell < width * length; cell++)
        if (sideOf(cell) === sideOf(width * length - 1 - cell)) isSymmetric = false;
      if (!isSymmetric) continue;
    }
    least = Math.min(least, priceOf(costs, kind !== 'open', sideOf));
  }
  return least;
}

// Brute force: every way to part the cells of a small grid, as the least cut is defined (Ford and Fulkerson, 1956).
describe.each(['open', 'cyclic'] as const)('the %s cut', (kind) => {
  it.each(Array.from({ length: 12 }, (_, seed) => seed))('is the least of all, grid %i', (seed) => {
    const [width, length] = [
      [4, 7],
      [5, 4],
      [6, 3],
      [3, 12],
    ][seed % 4];
    const costs = randomCosts(seed, width, length);
    const cut = shortestCut(costs, kind);
    expect(cut.isLeast).toBe(true);
    expect(cut.cost).toBe(leastOfAll(costs, kind));
    const sides = sidesOf(cut, width, length);
    expect(priceOf(costs, kind === 'cyclic', (cell) => sides[cell])).toBe(cut.cost);
  });
});

describe('the turned cut', () => {
  it.each([
    [0, 4, 6],
    [1, 4, 7],
    [2, 6, 4],
    [3, 6, 3],
    [4, 4, 1],
  ])(
    'is its own image, and the least of those of which each half stays in its half: grid %i',
    (seed, width, length) => {
      const costs = turnedCosts(randomCosts(seed, width, length));
      const cut = shortestCut(costs, 'turned');
      const sides = sidesOf(cut, width, length);
      for (let cell = 0; cell < sides.length; cell++)
        expect(sides[cell] + sides[sides.length - 1 - cell]).toBe(1);
      expect(priceOf(costs, true, (cell) => sides[cell])).toBe(
        length === 1 ? costs.across[width / 2] : cut.cost,
      );
      expect(cut.cost).toBeGreaterThanOrEqual(length === 1 ? 0 : leastOfAll(costs, 'turned'));
    },
  );
});

it('a closed cut may turn back over the place where the strip closes round', () => {
  const [width, length] = [7, 40];
  const costs = {
    width,
    length,
    across: new Uint16Array(280).fill(100),
    along: new Uint16Array(280).fill(100),
  };
  // A cheap groove that goes down on the left, back up over row 0 in the middle, and down again on the right.
  const groove = (i: number, from: number, to: number) => {
    for (let row = from; row < to; row++) costs.across[i + ((row + length) % length) * width] = 1;
  };
  const bridge = (from: number, to: number, row: number) => {
    for (let i = from; i < to; i++) costs.along[i + ((row + length) % length) * width] = 1;
  };
  groove(2, 10, 43);
  bridge(2, 4, 3);
  groove(4, -3, 3);
  bridge(4, 5, -3);
  groove(5, -3, 10);
  bridge(2, 5, 10);
  const cut = shortestCut(costs, 'cyclic');
  expect(cut.cost).toBeLessThan(100);
  expect(cut.isLeast).toBe(true);
});
