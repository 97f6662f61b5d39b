import { describe, expect, it } from 'vitest';
import { blendLoads, lightOfLoad, loadOfLight, meanOfLoads } from './load-light.ts';

/** CIE 1976 L* of a share of the paper's light. */
const lightness = (light: number) =>
  light > 216 / 24389 ? 116 * Math.cbrt(light) - 16 : (light * 24389) / 27;
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const RATIOS = [0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95];

/** The largest error in L* over shares of two loads, and over inks that the effect does not know. */
function worstOf(one: number, other: number, blend: (loads: readonly number[]) => number): number {
  let worst = 0;
  for (let count = 1; count < 20; count++) {
    const loads = Array.from({ length: 20 }, (_, k) => (k < count ? one : other));
    for (const ratio of RATIOS) {
      const light = mean(loads.map((load) => ratio ** load));
      worst = Math.max(worst, Math.abs(lightness(ratio ** blend(loads)) - lightness(light)));
    }
  }
  return worst;
}

describe('the mean of loads', () => {
  it('has the mean light where the ratio is known', () => {
    for (const ratio of RATIOS) {
      const loads = [0, 0.4, 1, 1, 2.5];
      expect(ratio ** meanOfLoads(loads, ratio)).toBeCloseTo(mean(loads.map((load) => ratio ** load)), 12);
    }
  });

  it('errs as little as stated where it is not, and the plain mean as much', () => {
    expect(worstOf(0, 1, meanOfLoads)).toBeCloseTo(13.2, 1);
    expect(worstOf(0, 1, mean)).toBeCloseTo(33.3, 1);
    expect(worstOf(0.3, 1, meanOfLoads)).toBeCloseTo(5.8, 1);
    expect(worstOf(0.3, 1, mean)).toBeCloseTo(14.2, 1);
  });

  it('is m - a v / 2 + a^2 s / 6 for loads that differ little', () => {
    const loads = [0.9, 0.95, 1, 1.2];
    const m = mean(loads);
    const [v, s] = [2, 3].map((power) => mean(loads.map((load) => (load - m) ** power)));
    const a = -Math.log(0.2);
    expect(meanOfLoads(loads, 0.2)).toBeCloseTo(m - (a / 2) * v + (a * a * s) / 6, 4);
    expect(meanOfLoads(loads, 0.2)).toBeLessThan(m - 0.005);
  });

  it('lies between the least and the mean, and is that of loads that are alike', () => {
    expect(meanOfLoads([0.7, 0.7, 0.7])).toBe(0.7);
    expect(meanOfLoads([400, 500])).toBeCloseTo(400 + Math.log(0.5) / Math.log(0.1), 9);
    for (const loads of [
      [0, 3],
      [0.2, 0.9, 1.4],
    ]) {
      expect(meanOfLoads(loads)).toBeGreaterThan(Math.min(...loads));
      expect(meanOfLoads(loads)).toBeLessThan(mean(loads));
    }
  });

  it('is blended by shares as by samples', () => {
    expect(blendLoads(0.2, 1, 0.25)).toBeCloseTo(meanOfLoads([0.2, 0.2, 0.2, 1]), 12);
    expect([blendLoads(0.2, 1, 0), blendLoads(0.2, 1, 1), blendLoads(0.4, 0.4, 0.3)]).toEqual([0.2, 1, 0.4]);
    expect(loadOfLight(lightOfLoad(0.37))).toBeCloseTo(0.37, 12);
  });
});
