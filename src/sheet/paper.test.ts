import { describe, expect, it } from 'vitest';
import { fractalNoise } from '../field/fractal.ts';
import { randomStream } from '../field/random.ts';
import { layPaper } from './paper.ts';
import { shapeOf } from './testing/sheets.ts';

const shape = shapeOf('drop:1/2', 120, 120);
const noise = (name: string, size: number) =>
  fractalNoise(
    shape.lattice,
    { along: size, across: size },
    { octaves: 2, gain: 0.6 },
    randomStream('test', name),
  );
const noises = {
  ridges: noise('a', 5),
  lobes: noise('b', 18),
  passages: noise('c', 40),
  grain: noise('d', 2),
};

describe('paper', () => {
  it('lets water pass more easily where it pins it less', () => {
    const { pin, ease, capacity } = layPaper(shape, noises, 1);
    const logs = [pin, ease].map((values) => Array.from(values, Math.log));
    const mean = logs.map((values) => values.reduce((sum, value) => sum + value) / values.length);
    const both = logs[0].reduce((sum, value, k) => sum + (value - mean[0]) * (logs[1][k] - mean[1]), 0);
    expect(both).toBeLessThan(0);
    expect(Math.min(...pin)).toBeGreaterThanOrEqual(0.0099);
    expect(Math.max(...ease)).toBeLessThanOrEqual(6);
    expect(Math.min(...capacity)).toBeGreaterThan(0.2);
  });

  it('without a fringe has no ridges, only passages', () => {
    const even = layPaper(shape, { ...noises, passages: { octaves: [], gains: [] } }, 0);
    expect(Math.max(...even.pin) - Math.min(...even.pin)).toBe(0);
  });
});
