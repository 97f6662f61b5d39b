import { describe, expect, it } from 'vitest';
import { cellIndex } from '../field/periodic.ts';
import { type RandomStream, randomStream } from '../field/random.ts';
import type { Lattice } from '../repeat/lattice.ts';
import { type CutCosts, costOfCut, minimumCut, NEVER } from './minimum-cut.ts';

const LATTICES: [string, (width: number, height: number) => Lattice | undefined][] = [
  ['with edges', () => undefined],
  ['straight', (width, height) => ({ ax: width, ay: 0, bx: 0, by: height })],
  ['a drop', (width, height) => ({ ax: width, ay: Math.floor(height / 3), bx: 0, by: height })],
  ['a brick', (width, height) => ({ ax: width, ay: 0, bx: Math.floor(width / 2), by: height })],
];

/** Costs from 0 to 9, a third of them 0, so that there are ties. */
function costsOf(random: RandomStream, width: number, height: number, lattice?: Lattice): CutCosts {
  const some = () => Int32Array.from({ length: width * height }, () => Math.max(0, random.below(14) - 4));
  const both = { first: some(), second: some(), right: some(), down: some() };
  return {
    width,
    height,
    lattice,
    ...both,
    ...(random.below(2) ? { rightBack: some(), downBack: some() } : {}),
  };
}

function bruteForce(costs: CutCosts): number {
  const count = costs.width * costs.height;
  let least = Number.POSITIVE_INFINITY;
  for (let bits = 0; bits < 2 ** count; bits++) {
    least = Math.min(
      least,
      costOfCut(
        costs,
        Uint8Array.from({ length: count }, (_, k) => (bits >> k) & 1),
      ),
    );
  }
  return least;
}

/**
 * The same by J. Edmonds and R. M. Karp, *Theoretical improvements in algorithmic efficiency for network flow
 * problems* (1972): always the path of the fewest steps, over lists of arcs that know nothing of grids.
 */
function edmondsKarp(costs: CutCosts): number {
  const { width, height, lattice, first, second, right, down } = costs;
  const count = width * height;
  const heads: number[][] = Array.from({ length: count + 2 }, () => []);
  const to: number[] = [];
  const room: number[] = [];
  const add = (a: number, b: number, there: number, back: number) => {
    heads[a].push(to.length);
    to.push(b);
    room.push(there);
    heads[b].push(to.length);
    to.push(a);
    room.push(back);
  };
  const shape = { width, height, lattice: lattice!, mmPerCellX: 1, mmPerCellY: 1 };
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const k = i + j * width;
      add(count, k, second?.[k] ?? 0, 0);
      add(k, count + 1, first?.[k] ?? 0, 0);
      if (lattice) {
        add(k, cellIndex(shape, i + 1, j), right[k], (costs.rightBack ?? right)[k]);
        add(k, cellIndex(shape, i, j + 1), down[k], (costs.downBack ?? down)[k]);
      } else {
        if (i + 1 < width) add(k, k + 1, right[k], (costs.rightBack ?? right)[k]);
        if (j + 1 < height) add(k, k + width, down[k], (costs.downBack ?? down)[k]);
      }
    }
  }
  for (let flow = 0; ; ) {
    const came = new Int32Array(count + 2).fill(-1);
    const queue = [count];
    for (let at = 0; at < queue.length && came[count + 1] < 0; at++) {
      for (const arc of heads[queue[at]]) {
        if (room[arc] === 0 || came[to[arc]] >= 0 || to[arc] === count) continue;
        came[to[arc]] = arc;
        queue.push(to[arc]);
      }
    }
    if (came[count + 1] < 0) return flow;
    let amount = Number.POSITIVE_INFINITY;
    for (let k = count + 1; k !== count; k = to[came[k] ^ 1]) amount = Math.min(amount, room[came[k]]);
    for (let k = count + 1; k !== count; k = to[came[k] ^ 1]) {
      room[came[k]] -= amount;
      room[came[k] ^ 1] += amount;
    }
    flow += amount;
  }
}

describe.each(LATTICES)('a minimum cut, %s', (name, latticeOf) => {
  it('is the cheapest of all ways to share a small grid', () => {
    const random = randomStream('cuts', name);
    for (const [width, height] of [
      [1, 1],
      [1, 5],
      [6, 1],
      [2, 2],
      [2, 4],
      [4, 3],
      [3, 3],
    ]) {
      for (let k = 0; k < (width * height > 9 ? 4 : 25); k++) {
        const costs = costsOf(random, width, height, latticeOf(width, height));
        const { second, cost } = minimumCut(costs);
        expect(cost, `${width} x ${height}, try ${k}`).toBe(bruteForce(costs));
        expect(costOfCut(costs, second)).toBe(cost);
      }
    }
  });
  it('costs what the greatest flow over lists of arcs carries', () => {
    const random = randomStream('flows', name);
    for (const [width, height] of [
      [17, 13],
      [30, 24],
      [9, 40],
    ]) {
      for (let k = 0; k < 4; k++) {
        const costs = costsOf(random, width, height, latticeOf(width, height));
        const { second, cost } = minimumCut(costs);
        expect(cost).toBe(edmondsKarp(costs));
        expect(costOfCut(costs, second)).toBe(cost);
      }
    }
  });
});

describe('a minimum cut', () => {
  it('leaves what must not be parted on its side, and goes the way that costs nothing', () => {
    const [width, height] = [5, 40];
    const first = new Int32Array(width * height);
    const second = new Int32Array(width * height);
    const right = new Int32Array(width * height).fill(7);
    const down = new Int32Array(width * height).fill(3);
    for (let j = 0; j < height; j++) {
      second[j * width] = NEVER;
      first[j * width + width - 1] = NEVER;
      // A free way that wanders, one column to the side at a time.
      const column = 1 + (Math.floor(j / 8) % 2);
      right[j * width + column] = 0;
      if (j % 8 === 7) down[j * width + 2] = 0;
    }
    const { second: side, cost } = minimumCut({ width, height, first, second, right, down });
    expect(cost).toBe(0);
    for (let j = 0; j < height; j++) {
      expect([...side.subarray(j * width, (j + 1) * width)].indexOf(1)).toBe(2 + (Math.floor(j / 8) % 2));
    }
  });
  it('closes around a torus: a ring between two halves has two ways across', () => {
    const [width, height] = [12, 1];
    const right = new Int32Array(12).fill(5);
    right[3] = 2;
    right[9] = 1;
    const first = new Int32Array(12);
    const second = new Int32Array(12);
    second[6] = NEVER;
    first[0] = NEVER;
    const costs = { width, height, first, second, right, down: new Int32Array(12) };
    expect(minimumCut({ ...costs, lattice: { ax: 12, ay: 0, bx: 0, by: 1 } }).cost).toBe(3);
    expect(minimumCut(costs).cost).toBe(2);
  });
  it('holds 100,000 cells as dear as can be', () => {
    const [width, height] = [400, 250];
    const random = randomStream('large', '');
    const some = (most: number) => Int32Array.from({ length: width * height }, () => random.below(most));
    const costs = {
      width,
      height,
      first: some(NEVER),
      second: some(NEVER),
      right: some(NEVER),
      down: some(NEVER),
    };
    const { second, cost } = minimumCut(costs);
    expect(costOfCut(costs, second)).toBe(cost);
  });
  it('may be given up', () => {
    const random = randomStream('stop', '');
    const costs = costsOf(random, 200, 200);
    const stop = () => {
      throw new Error('stop');
    };
    expect(() => minimumCut(costs, stop)).toThrow('stop');
  });
});
