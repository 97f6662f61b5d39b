import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { fieldShape } from './periodic.ts';
import { diffuseExplicitly, neighboursOf } from './stencil.ts';

function squareOf(cells: number, layout = 'straight') {
  return fieldShape(boxOf({ layout: parseLayout(layout), width: cells, height: cells }), 1);
}

describe('an explicit step', () => {
  // Exact amplification of the five-point star, 1 - 4 rho (sin^2 + sin^2), worked out to 12 digits.
  it.each([
    [64, 0.2, 1, 0, 0.998073890669],
    [64, 0.2, 3, 5, 0.935544640032],
    [32, 0.1, 1, 1, 0.992314112161],
    [64, 0.25, 32, 32, -1],
  ])('of %i cells at rate %f multiplies wave (%i, %i) by %f', (cells, rate, p, q, factor) => {
    const shape = squareOf(cells);
    const wave = Float64Array.from({ length: cells * cells }, (_, k) =>
      Math.cos((2 * Math.PI * (p * (k % cells) + q * Math.floor(k / cells))) / cells),
    );
    const next = diffuseExplicitly(wave, neighboursOf(shape), rate);
    for (let k = 0; k < wave.length; k++) expect(Math.abs(next[k] - factor * wave[k])).toBeLessThan(2e-12);
  });

  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])(
    'keeps the sum and the range at %s',
    (layout) => {
      const shape = squareOf(30, layout);
      const values = Float64Array.from({ length: 900 }, (_, k) => ((k * 7919) % 101) / 100);
      const next = diffuseExplicitly(values, neighboursOf(shape), 0.25);
      const sum = (list: Float64Array) => list.reduce((total, value) => total + value, 0);
      expect(Math.abs(sum(next) - sum(values))).toBeLessThan(1e-10);
      expect(Math.min(...next)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...next)).toBeLessThanOrEqual(1);
    },
  );
});

describe('neighbours', () => {
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])('undo one another at %s', (layout) => {
    const { left, right, above, below } = neighboursOf(squareOf(30, layout));
    for (let k = 0; k < 900; k++) {
      expect(left[right[k]]).toBe(k);
      expect(above[below[k]]).toBe(k);
      expect(right[below[k]]).toBe(below[right[k]]);
    }
  });

  it('lead over a drop as the lattice says: f(x + w, y + drop) = f(x, y)', () => {
    const { right } = neighboursOf(squareOf(30, 'drop:2/5'));
    expect(right[29 + 15 * 30]).toBe(3 * 30);
  });
});
