import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { gaussianBlur } from './gaussian.ts';
import { emptyField, type PeriodicField } from './periodic.ts';

const fieldFor = (layout: string, width: number, height: number, mmPerCell = 1): PeriodicField =>
  emptyField(boxOf({ layout: parseLayout(layout), width, height }), mmPerCell);

// The heat kernel of unit period and mass is Jacobi's theta function, theta_3(pi*x, exp(-4*pi^2*tau)),
// tau = D*t/L^2 (e.g. Carslaw and Jaeger, Conduction of Heat in Solids); values by mpmath's jtheta.
const HEAT_KERNEL: readonly (readonly [number, ...number[]])[] = [
  [0.001, 8.92062058076, 4.77486411534, 0.732249128096, 1.46064e-6, 1.3e-26],
  [0.005, 3.98942280401, 3.52065326764, 2.41970724519, 0.175283004938, 2.97344e-5],
  [0.01, 2.82094791782, 2.65003532389, 2.19695645187, 0.591305009699, 0.0108914211518],
  [0.05, 1.27856699942, 1.26482716996, 1.22499304623, 0.999255305388, 0.722922389809],
  [0.1, 1.03859288311, 1.03670397358, 1.03122215965, 0.999999722715, 0.961407671463],
];
const PLACES = [0, 0.05, 0.1, 0.25, 0.5];

describe('a Gaussian blur', () => {
  it.each(HEAT_KERNEL)('of a line is the periodic heat kernel at tau = %d', (tau, ...values) => {
    // 80 cells per period: a line of unit mass is 80 high. sigma^2 = 2*D*t.
    const period = 20;
    for (const layout of ['straight', 'drop:1/2']) {
      const field = fieldFor(layout, period, 6, 0.25);
      for (let y = 0; y < field.height; y++) field.values[y * field.width] = field.width;
      const blurred = gaussianBlur(field, period * Math.sqrt(2 * tau));
      PLACES.forEach((place, k) => {
        const found = blurred.values[place * field.width + 5 * field.width];
        expect(Math.abs(found - values[k])).toBeLessThan(1e-6 * (1 + values[k]));
      });
    }
  });

  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/2', 'brick:2/3'])(
    'of a point is the sum of the Gaussians at its copies, over %s',
    (layout) => {
      const field = fieldFor(layout, 12, 15, 0.5);
      const { width, height, lattice } = field;
      field.values[7 + 4 * width] = 1;
      const sigma = 2.2;
      const blurred = gaussianBlur(field, sigma);
      for (let k = 0; k < 60; k++) {
        const [x, y] = [(k * 5) % width, (k * 7) % height];
        let sum = 0;
        for (let m = -4; m <= 4; m++)
          for (let n = -4; n <= 4; n++) {
            const dx = (x - 7 + m * lattice.ax + n * lattice.bx) * 0.5;
            const dy = (y - 4 + m * lattice.ay + n * lattice.by) * 0.5;
            sum += Math.exp(-(dx * dx + dy * dy) / (2 * sigma * sigma));
          }
        const expected = (sum * 0.25) / (2 * Math.PI * sigma * sigma);
        expect(Math.abs(blurred.values[x + y * width] - expected)).toBeLessThan(1e-8);
      }
      const total = blurred.values.reduce((all, value) => all + value, 0);
      expect(total).toBeCloseTo(1, 5);
    },
  );

  it('of no width changes nothing', () => {
    const field = fieldFor('drop:1/3', 9, 9);
    field.values[13] = 2;
    gaussianBlur(field, 0).values.forEach((value, k) => {
      expect(value).toBeCloseTo(field.values[k], 6);
    });
  });
});
