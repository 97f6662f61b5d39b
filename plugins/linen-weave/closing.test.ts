import { describe, expect, it } from 'vitest';
import { makeLinen, meanOf, paintLinen } from './testing.ts';

const DYED = { warpColour: '#446688', weftColour: '#ffeedd', slubs: 4 };
const CASES: [layout: string, size: string, parameters: object][] = [
  ['straight', '41x29mm', {}],
  ['straight', '3x2mm', { weave: 'twill' }],
  ['drop:1/2', '40x30mm', {}],
  ['drop:1/2', '3x2mm', {}],
  ['drop:1/3', '47x61mm', { weave: 'twill' }],
  ['drop:2/5', '41x29mm', { weave: 'satin', order: 7, move: 3 }],
  ['brick:1/2', '40x30mm', {}],
  ['brick:1/3', '3x2mm', { weave: 'basket' }],
  ['brick:2/5', '44x29mm', { weave: 'satin' }],
];
const TRANSLATES = [
  [1, 0],
  [0, 1],
  [-2, 3],
  [5, -4],
] as const;
const WIDTH = 61;
const HEIGHT = 47;

describe.each<[number, typeof CASES]>([
  [300, CASES],
  [75, CASES],
  [
    8,
    [
      ['straight', '127x64mm', {}],
      ['drop:1/2', '127x127mm', {}],
      ['brick:2/5', '127x127mm', { weave: 'satin' }],
    ],
  ],
])('at %i dpi', (dpi, cases) => {
  it.each(cases)('%s %s %j: every lattice translate is the same to the bit', (layout, size, parameters) => {
    const made = makeLinen({ ...DYED, ...parameters }, layout, size, dpi);
    const { ax, ay, bx, by } = made.grid.lattice;
    const home = paintLinen(made, -37, -53, WIDTH, HEIGHT);
    for (const [m, n] of TRANSLATES) {
      const there = paintLinen(made, -37 + m * ax + n * bx, -53 + m * ay + n * by, WIDTH, HEIGHT);
      expect(Buffer.compare(Buffer.from(home.shade.buffer), Buffer.from(there.shade.buffer))).toBe(0);
      expect(Buffer.compare(Buffer.from(home.tint.buffer), Buffer.from(there.tint.buffer))).toBe(0);
    }
    expect(home.shade.every((value) => value > 0 && value < 4)).toBe(true);
  });
});

describe('the check itself', () => {
  it.each(['drop:1/2', 'brick:1/3', 'straight'])('catches a wrong lattice at %s', (layout) => {
    const made = makeLinen({}, layout, '40x30mm');
    const { ax, ay } = made.grid.lattice;
    const home = paintLinen(made, -37, -53, WIDTH, HEIGHT).shade;
    const wrong = paintLinen(made, -37 + ax, -53 + ay + 5, WIDTH, HEIGHT).shade;
    const different = wrong.filter((value, k) => Math.abs(value - home[k]) > 1e-5).length;
    expect(different / home.length).toBeGreaterThan(0.99);
  });
});

describe('bands', () => {
  it.each([300, 75, 8])('cut in any way give the same bits at %i dpi', (dpi) => {
    const made = makeLinen(DYED, 'drop:1/2', '40x30mm', dpi);
    const whole = paintLinen(made, -11, -7, 60, 30);
    for (const [x, y, width, height] of [
      [0, 0, 60, 1],
      [0, 29, 60, 1],
      [17, 5, 1, 25],
      [31, 11, 29, 8],
    ]) {
      const part = paintLinen(made, -11 + x, -7 + y, width, height);
      for (let row = 0; row < height; row++) {
        const from = (y + row) * 60 + x;
        expect(part.shade.subarray(row * width, (row + 1) * width)).toEqual(
          whole.shade.subarray(from, from + width),
        );
        expect(part.tint.subarray(4 * row * width, 4 * (row + 1) * width)).toEqual(
          whole.tint.subarray(4 * from, 4 * (from + width)),
        );
      }
    }
  });
});

describe('yarns run on across the edges of the box', () => {
  // A jump at the edge must lie within the spread of the jumps inside (rank of the seam).
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/2', 'brick:1/3'])('%s', (layout) => {
    const made = makeLinen({ tone: 20, unevenness: 40 }, layout, '40x40mm');
    const { model } = made;
    for (const { threads, half, tone } of [model.warp, model.weft]) {
      for (const table of [half, tone]) {
        const jumpAt = (cell: number) =>
          meanOf(
            Array.from({ length: threads.count }, (_, thread) => {
              const next =
                cell + 1 < threads.cells ? thread : (thread - threads.step + threads.count) % threads.count;
              return Math.abs(
                table[thread * threads.cells + cell] -
                  table[next * threads.cells + ((cell + 1) % threads.cells)],
              );
            }),
          );
        const inside = Array.from({ length: threads.cells - 1 }, (_, cell) => jumpAt(cell));
        expect(jumpAt(threads.cells - 1)).toBeLessThan(1.3 * Math.max(...inside));
      }
    }
  });
  it('and so do their fibres', () => {
    const { model } = makeLinen({}, 'drop:2/5', '40x40mm');
    for (const { threads, fibres } of [model.warp, model.weft]) {
      expect(threads.cells % fibres.cells).toBe(0);
      for (let thread = 0; thread < threads.count; thread++) {
        expect(fibres.start[(thread + threads.step) % threads.count]).toBe(fibres.start[thread]);
      }
      const row = fibres.streaks.length / (fibres.cells * fibres.samples + 1);
      const jumpAt = (sample: number) =>
        meanOf(
          Array.from({ length: row }, (_, band) =>
            Math.abs(
              fibres.streaks[sample * row + band] -
                fibres.streaks[((sample + 1) % (fibres.cells * fibres.samples)) * row + band],
            ),
          ),
        );
      const inside = Array.from({ length: fibres.cells * fibres.samples - 1 }, (_, sample) => jumpAt(sample));
      expect(jumpAt(inside.length)).toBeLessThan(Math.max(...inside));
    }
  });
  it.each(['drop:1/2', 'drop:2/5', 'brick:1/3'])('in the picture at %s, too', (layout) => {
    const made = makeLinen({ tone: 25, slubs: 0, gap: 0 }, layout, '20x20mm');
    const { width, height } = made.grid;
    const size = Math.max(width, height) + 40;
    const { shade } = paintLinen(made, -20, -20, size, size);
    for (const [edge, step, along] of [
      [20, 1, size],
      [20 + width, 1, size],
      [20, size, 1],
      [20 + height, size, 1],
    ]) {
      const jumpAt = (k: number) =>
        meanOf(
          Array.from({ length: size }, (_, n) => {
            const here = n * along + k * step;
            return Math.abs(shade[here] - shade[here - step]);
          }),
        );
      const inside = Array.from({ length: size - 1 }, (_, k) => k + 1).filter(
        (k) => k !== 20 && k !== 20 + width && k !== 20 + height,
      );
      expect(jumpAt(edge)).toBeLessThan(Math.max(...inside.map(jumpAt)));
    }
  });
});
