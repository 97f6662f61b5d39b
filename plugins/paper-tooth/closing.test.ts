import { describe, expect, it } from 'vitest';
import { makePaper, paintPaper } from './testing.ts';

const CASES: [layout: string, size: string, parameters: Record<string, unknown>][] = [
  ['straight', '41x29mm', { fibres: 60 }],
  ['straight', '3x2mm', { laid: 9 }],
  ['drop:1/2', '40x30mm', { laid: 9 }],
  ['drop:1/3', '47x61mm', { tooth: 5, fibres: 60 }],
  ['drop:2/5', '41x29mm', { felt: 2, laid: 12, chain: 12 }],
  ['brick:1/2', '40x30mm', { laid: 7 }],
  ['brick:1/3', '3x2mm', { fibres: 60 }],
  ['brick:2/5', '44x29mm', { pressed: 1, fibres: 60 }],
];
const TRANSLATES = [
  [1, 0],
  [0, 1],
  [-2, 3],
  [5, -4],
] as const;

describe.each([300, 75, 20])('at %i dpi', (dpi) => {
  it.each(CASES)('%s %s %j: every lattice translate is the same to the bit', (layout, size, parameters) => {
    const made = makePaper(parameters, layout, size, dpi);
    const { ax, ay, bx, by } = made.grid.lattice;
    const home = paintPaper(made, -37, -53, 61, 47);
    for (const [m, n] of TRANSLATES) {
      const there = paintPaper(made, -37 + m * ax + n * bx, -53 + m * ay + n * by, 61, 47);
      expect(there.shade).toEqual(home.shade);
      expect(there.load).toEqual(home.load);
    }
  });
});

describe('the check itself', () => {
  it.each(['drop:1/2', 'brick:1/3', 'straight'])('catches a wrong lattice at %s', (layout) => {
    const made = makePaper({}, layout, '40x30mm');
    const { ax, ay } = made.grid.lattice;
    const home = paintPaper(made, -37, -53, 61, 47).shade;
    const wrong = paintPaper(made, -37 + ax, -53 + ay + 5, 61, 47).shade;
    const different = wrong.filter((value, k) => Math.abs(value - home[k]) > 1e-4).length;
    expect(different / home.length).toBeGreaterThan(0.97);
  });
});

describe('bands', () => {
  it.each([300, 75, 20])('cut in any way give the same bits at %i dpi', (dpi) => {
    const made = makePaper({ fibres: 60, laid: 9 }, 'drop:1/2', '40x30mm', dpi);
    const whole = paintPaper(made, -11, -7, 60, 30);
    for (const [x, y, width, height] of [
      [0, 0, 60, 1],
      [0, 29, 60, 1],
      [17, 5, 1, 25],
      [31, 11, 29, 8],
    ]) {
      const part = paintPaper(made, -11 + x, -7 + y, width, height);
      for (let row = 0; row < height; row++) {
        const from = (y + row) * 60 + x;
        expect(part.shade.subarray(row * width, (row + 1) * width)).toEqual(
          whole.shade.subarray(from, from + width),
        );
        expect(part.load.subarray(row * width, (row + 1) * width)).toEqual(
          whole.load.subarray(from, from + width),
        );
      }
    }
  });
});

describe('tooth, lines and fibres run on across the edges of the box', () => {
  // A jump at an edge must lie within the spread of the jumps inside (rank of the seam).
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])('%s', (layout) => {
    const made = makePaper({ fibres: 60, felt: 2, laid: 6 }, layout, '20x20mm');
    const { width, height } = made.grid;
    const size = Math.max(width, height) + 40;
    const { shade } = paintPaper(made, -20, -20, size, size);
    for (const [edge, step, along] of [
      [20, 1, size],
      [20 + width, 1, size],
      [20, size, 1],
      [20 + height, size, 1],
    ]) {
      const jumpAt = (k: number) => {
        let sum = 0;
        for (let n = 0; n < size; n++) {
          const here = n * along + k * step;
          sum += Math.abs(shade[here] - shade[here - step]);
        }
        return sum / size;
      };
      const inside = Array.from({ length: size - 1 }, (_, k) => k + 1).filter(
        (k) => ![20, 20 + width, 20 + height].includes(k),
      );
      expect(jumpAt(edge)).toBeLessThan(Math.max(...inside.map(jumpAt)));
    }
  });
});
