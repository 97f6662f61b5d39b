import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { diffuse } from './diffuse.ts';
import { gaussianBlur } from './gaussian.ts';
import { cellIndex, emptyField, type PeriodicField } from './periodic.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/2'];
const filled = (field: PeriodicField, value: number) => new Float32Array(field.values.length).fill(value);
const sumOf = (values: Float32Array) => values.reduce((sum, value) => sum + value, 0);

function rough(layout: string, size = 20): PeriodicField {
  const field = emptyField(boxOf({ layout: parseLayout(layout), width: size, height: size }), 0.25);
  const random = randomStream(layout, 'rough');
  return { ...field, values: field.values.map(() => random.next()) };
}

describe.each(LAYOUTS)('diffusion over %s', (layout) => {
  const field = rough(layout);
  const uneven = filled(field, 0).map((_, k) => (k % 7 === 0 ? 0 : 0.4 * ((k % 13) / 13)));

  it('keeps the sum and makes no new extremes, where it is uneven too', () => {
    const { values } = diffuse(field, uneven);
    expect(Math.abs(sumOf(values) / sumOf(field.values) - 1)).toBeLessThan(1e-6);
    const [low, high] = [Math.min(...field.values), Math.max(...field.values)];
    for (const value of values) expect(value >= low && value <= high).toBe(true);
    expect(values).not.toEqual(field.values);
  });

  it('moves with its domain', () => {
    const move = (values: Float32Array) => {
      const moved = values.slice();
      for (let k = 0; k < values.length; k++)
        moved[cellIndex(field, (k % field.width) + 23, Math.floor(k / field.width) + 57)] = values[k];
      return moved;
    };
    expect(diffuse({ ...field, values: move(field.values) }, move(uneven)).values).toEqual(
      move(diffuse(field, uneven).values),
    );
  });

  it('is a Gaussian blur where it is even', () => {
    const smooth = gaussianBlur(field, 0.4);
    const spread = diffuse(smooth, filled(field, 0.5 * 0.9 ** 2)).values;
    const blurred = gaussianBlur(smooth, 0.9).values;
    let most = 0;
    for (let k = 0; k < spread.length; k++) most = Math.max(most, Math.abs(spread[k] - blurred[k]));
    expect(most).toBeLessThan(0.03 * (Math.max(...smooth.values) - Math.min(...smooth.values)));
  });
});

describe('diffusion', () => {
  // The heat kernel of the unit circle, theta_3(pi x, exp(-4 pi^2 tau)); values by mpmath 1.3.0 `jtheta`.
  it.each([
    [0.001, [8.92062058076, 4.77486411534, 0.732249128096]],
    [0.005, [3.98942280401, 3.52065326764, 2.41970724519]],
    [0.05, [1.27856699942, 1.26482716996, 1.22499304623]],
  ])('spreads a line as the heat kernel does at tau = %d', (tau, expected) => {
    // 200 cells round a circle of 50 mm; a line 1 cell wide holds 1 per unit of the circle.
    const field = emptyField(boxOf({ layout: parseLayout('straight'), width: 50, height: 2 }), 0.25);
    for (let j = 0; j < field.height; j++) field.values[100 + j * field.width] = field.width;
    const { values } = diffuse(field, filled(field, tau * 50 * 50));
    expect(Math.abs(values[100] / expected[0] - 1)).toBeLessThan(0.02);
    expect(Math.abs(values[110] / expected[1] - 1)).toBeLessThan(0.02);
    expect(Math.abs(values[120] / expected[2] - 1)).toBeLessThan(0.02);
  });

  it('does nothing where nothing may move', () => {
    const field = rough('straight', 5);
    expect(diffuse(field, filled(field, 0)).values).toEqual(field.values);
  });

  it('refuses a diffusivity that is none', () => {
    const field = rough('straight', 5);
    expect(() => diffuse(field, filled(field, -1))).toThrow('a diffusivity');
    expect(() => diffuse(field, filled(field, Number.NaN))).toThrow('a diffusivity');
    expect(() => diffuse(field, new Float32Array(2))).toThrow('a diffusivity');
  });
});
