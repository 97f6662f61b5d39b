import { describe, expect, it } from 'vitest';
import { fractalOnPixels } from './footprint.ts';
import { fractalNoise } from './fractal.ts';
import { randomStream } from './random.ts';
import { fractalVariance, normalShare, SHARE_LAST, SHARE_MIDDLE, SHARE_SCALE, SHARES } from './share.ts';

describe('the share above a threshold', () => {
  // Tables of the normal distribution, from memory.
  it.each([
    [0, 0.5],
    [1, 0.8413],
    [-1.96, 0.025],
    [2.5758, 0.995],
    [-4, 0.0000317],
  ])('at %d deviations is %d', (z, share) => {
    expect(normalShare(z)).toBeCloseTo(share, 4);
  });
  it('is the same by table', () => {
    for (let z = -3.9; z < 3.9; z += 0.013) {
      const entry = (z * SHARE_SCALE + SHARE_MIDDLE) | 0;
      expect(Math.abs(SHARES[entry] - normalShare(z))).toBeLessThan(0.004);
    }
    expect(SHARES.length).toBe(SHARE_LAST + 1);
  });
  it('of a mean over normal noise is the share at a greater deviation', () => {
    const random = randomStream('share', 'noise');
    for (const [z, spread] of [
      [0.7, 1.3],
      [-1.1, 0.6],
    ]) {
      let sum = 0;
      const count = 40_000;
      for (let k = 0; k < count; k++) sum += normalShare(z + spread * random.normal());
      expect(Math.abs(sum / count - normalShare(z / Math.hypot(1, spread)))).toBeLessThan(0.01);
    }
  });
});

describe('the variance of a fractal', () => {
  const noise = fractalNoise(
    { ax: 60, ay: 0, bx: 0, by: 60 },
    { along: 2, across: 2 },
    { octaves: 4, gain: 0.6, deviation: 0.7 },
    randomStream('a', 'b'),
  );
  it('is that it was made with', () => expect(fractalVariance(noise)).toBeCloseTo(0.49, 10));
  it('is less on larger pixels', () => {
    const on = [0.1, 0.5, 2].map((mm) => fractalVariance(fractalOnPixels(noise, mm, mm)));
    expect(on).toEqual([...on].sort((a, b) => b - a));
    expect(on[2]).toBeLessThan(0.25);
  });
});
