import { describe, expect, it } from 'vitest';
import { clothCover, peirceDiameter, texOf, yarnDiameter } from './count.ts';

describe('yarn counts', () => {
  // Handbooks print 590.5 / Ne; 300 yd per lb is the linen lea (J. T. Taylor, Cotton Weaving and Designing).
  it('turns every system into tex', () => {
    expect(texOf(1, 'cotton')).toBeCloseTo(590.541, 3);
    expect(texOf(1, 'linen')).toBeCloseTo(1653.515, 3);
    expect(texOf(1, 'worsted')).toBeCloseTo(885.812, 3);
    expect(texOf(20, 'metric')).toBe(50);
    expect(texOf(90, 'denier')).toBe(10);
    expect(texOf(37, 'tex')).toBe(37);
  });
  it.each([
    [14, 118.11],
    [25, 66.14],
    [28, 59.05],
    [40, 41.34],
    [66, 25.05],
    [100, 16.54],
  ])('linen lea %i is %f tex', (lea, tex) => {
    expect(texOf(lea, 'linen')).toBeCloseTo(tex, 1);
  });
  it('28 lea of linen is 10s cotton', () => {
    expect(texOf(28, 'linen')).toBeCloseTo(texOf(10, 'cotton'), 9);
  });
});

describe('yarn diameter', () => {
  // Peirce 1937: d = 1 / (28 sqrt(Ne)) inch, which is 0.03733 sqrt(tex) mm.
  it("is Peirce's for cotton", () => {
    expect(peirceDiameter(56)).toBeCloseTo(0.27936, 4);
    expect(peirceDiameter(25)).toBeCloseTo(0.18665, 4);
    expect(peirceDiameter(105)).toBeCloseTo(0.38253, 4);
  });
  // Peirce's rule amounts to a specific volume of 1.1 cm3/g: density times packing 1/1.1.
  it('agrees with it where the packing is that of cotton, and is finer for flax', () => {
    expect(yarnDiameter(56, 1, 1 / 1.1) / peirceDiameter(56)).toBeCloseTo(1, 1.5);
    expect(yarnDiameter(56)).toBeLessThan(1.05 * peirceDiameter(56));
  });
});

// Peirce 1937 (combined cover): worked from d and the thread counts of a medium plain cloth.
it('the cover of a cloth is C1 + C2 - C1 C2', () => {
  expect(clothCover(0.27936 * 1.6, 0.27936 * 1.5)).toBeCloseTo(0.67871, 4);
});
