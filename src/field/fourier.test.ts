import { describe, expect, it } from 'vitest';
import { modulo } from '../repeat/lattice.ts';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { filterField, forwardTransform, frequencyOf, inverseTransform } from './fourier.ts';
import { fastCount, lineTransform } from './fourier-line.ts';
import { latticeNoise } from './noise.ts';
import { addNoiseRow } from './noise-row.ts';
import { bakeField, cellIndex, emptyField, type PeriodicField } from './periodic.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/3'];
const boxFor = (layout: string, width: number, height: number) =>
  boxOf({ layout: parseLayout(layout), width, height });

function randomField(layout: string, width: number, height: number, mmPerCell = 1): PeriodicField {
  const field = emptyField(boxFor(layout, width, height), mmPerCell);
  const random = randomStream(layout, 'values');
  for (let k = 0; k < field.values.length; k++) field.values[k] = random.normal();
  return field;
}

const meanSquare = (values: ArrayLike<number>) =>
  Array.from(values).reduce((sum, value) => sum + value * value, 0) / values.length;

// The definition of the discrete transform, term by term.
describe('the transform of a line', () => {
  it.each([1, 2, 3, 4, 7, 8, 12, 15, 16, 31, 33, 37, 60, 64, 74, 96, 97, 101, 128, 125])(
    'of %d numbers is the sum that defines it',
    (size) => {
      const random = randomStream('line', String(size));
      const line = Float64Array.from({ length: 2 * size }, () => random.normal());
      const result = line.slice();
      lineTransform(size)(result);
      for (let k = 0; k < size; k++) {
        let [re, im] = [0, 0];
        for (let x = 0; x < size; x++) {
          const angle = (-2 * Math.PI * ((k * x) % size)) / size;
          re += line[2 * x] * Math.cos(angle) - line[2 * x + 1] * Math.sin(angle);
          im += line[2 * x] * Math.sin(angle) + line[2 * x + 1] * Math.cos(angle);
        }
        expect(Math.abs(result[2 * k] - re) + Math.abs(result[2 * k + 1] - im)).toBeLessThan(1e-11 * size);
      }
    },
  );
});

it('knows a fast count near any', () => {
  for (let count = 1; count < 5000; count += 1.7) {
    let odd = fastCount(count);
    expect(Math.abs(odd / count - 1)).toBeLessThan(1 / 7);
    while (odd % 2 === 0) odd /= 2;
    expect([1, 3, 5]).toContain(odd);
  }
});

describe.each(LAYOUTS)('the transform over %s', (layout) => {
  const field = randomField(layout, 18, 30);
  const { values, width, height, lattice } = field;
  const spectrum = forwardTransform(field);

  it('has waves that close over both lattice vectors, no two alike', () => {
    const seen = new Set<string>();
    // Frequencies are whole multiples of 1 / (width * height); those a whole number apart look alike.
    const name = (cycles: number) => modulo(Math.round(cycles * width * height), width * height);
    for (let q = 0; q < height; q++)
      for (let p = 0; p < width; p++) {
        const { x, y } = frequencyOf(spectrum, p, q);
        for (const turns of [x * lattice.ax + y * lattice.ay, x * lattice.bx + y * lattice.by]) {
          expect(Math.abs(turns - Math.round(turns))).toBeLessThan(1e-9);
        }
        expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThanOrEqual(0.5);
        seen.add(`${name(x)},${name(y)}`);
      }
    expect(seen.size).toBe(width * height);
  });

  it('is the sum that defines it', () => {
    for (let k = 0; k < 40; k++) {
      const [p, q] = [(k * 7) % width, (k * 11) % height];
      const frequency = frequencyOf(spectrum, p, q);
      let [re, im] = [0, 0];
      for (let y = 0; y < height; y++)
        for (let x = 0; x < width; x++) {
          const angle = -2 * Math.PI * (frequency.x * x + frequency.y * y);
          re += (values[x + y * width] * Math.cos(angle)) / values.length;
          im += (values[x + y * width] * Math.sin(angle)) / values.length;
        }
      const at = 2 * (p + q * width);
      expect(Math.abs(spectrum.waves[at] - re)).toBeLessThan(1e-12);
      expect(Math.abs(spectrum.waves[at + 1] - im)).toBeLessThan(1e-12);
    }
  });

  it('keeps the mean square (Parseval) and comes back', () => {
    const power = spectrum.waves.reduce((sum, part) => sum + part * part, 0);
    expect(power).toBeCloseTo(meanSquare(values), 9);
    const back = inverseTransform(spectrum);
    expect(back.lattice).toEqual(lattice);
    for (let k = 0; k < values.length; k++) expect(back.values[k]).toBeCloseTo(values[k], 6);
  });

  it('gives frequencies in cycles per mm, whatever the cells', () => {
    const fine = randomField(layout, 18, 30, 0.4);
    const [wide, narrow] = [frequencyOf(field, 1, 2), frequencyOf(fine, 1, 2)];
    expect(narrow.x).toBeCloseTo(wide.x, 12);
    expect(narrow.y).toBeCloseTo(wide.y, 12);
  });

  it('filters alike wherever the box is cut: moving the field and filtering it may change places', () => {
    const smooth = (of: PeriodicField) => filterField(of, (fx, fy) => 1 / (1 + 400 * (fx * fx + fy * fy)));
    const moved = (of: PeriodicField): PeriodicField => ({
      ...of,
      values: of.values.map((_, k) => of.values[cellIndex(of, (k % width) + 7, Math.floor(k / width) - 4)]),
    });
    const [a, b] = [smooth(moved(field)).values, moved(smooth(field)).values];
    expect(meanSquare(a)).toBeLessThan(meanSquare(values) / 4);
    for (let k = 0; k < values.length; k++) expect(Math.abs(a[k] - b[k])).toBeLessThan(1e-6);
  });
});

// A picture of the half-drop (or half-brick) unfolded into its rectangle of two tiles is a centred
// (cm) lattice: waves (kx, ky) with kx + ky odd are absent (International Tables for Crystallography A).
describe('the spectrum of the unfolded rectangle', () => {
  const oddShare = (layout: string) => {
    const box = boxFor(layout, 32, 24);
    const noise = latticeNoise(box.lattice, { along: 6, across: 2, direction: 30 }, randomStream('z', 'n'));
    const rectangle = boxFor(
      'straight',
      32 * (layout.startsWith('brick') ? 1 : 2),
      24 * (layout.startsWith('drop') ? 1 : 2),
    );
    const spectrum = forwardTransform(
      bakeField(rectangle, 1, (x0, step, y, row, count, offset) =>
        addNoiseRow(noise, x0, step, y, 1, row, count, offset),
      ),
    );
    let [odd, even] = [0, 0];
    for (let q = 0; q < spectrum.height; q++)
      for (let p = 0; p < spectrum.width; p++) {
        const at = 2 * (p + q * spectrum.width);
        const power = spectrum.waves[at] ** 2 + spectrum.waves[at + 1] ** 2;
        if ((p + q) % 2 === 1) odd += power;
        else even += power;
      }
    return odd / even;
  };

  it.each(['drop:1/2', 'brick:1/2'])('of %s has no wave with kx + ky odd', (layout) => {
    expect(oddShare(layout)).toBeLessThan(1e-12);
  });
  it('of another layout has', () => {
    expect(oddShare('drop:1/3')).toBeGreaterThan(0.05);
  });
});
