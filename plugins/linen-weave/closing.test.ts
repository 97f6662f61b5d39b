import { describe, expect, it } from 'vitest';
import { expectAnyCut, expectAstray, expectRunsOn, expectTranslates } from '../testing/habits.ts';
import { makeLinen, paintLinen } from '../testing/linen-weave.ts';
import { meanOf } from '../testing/measure.ts';

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
    expectTranslates(made);
    const home = paintLinen(made, -37, -53, 61, 47);
    expect(home.shade.every((value) => value > 0 && value < 4)).toBe(true);
  });
});

describe('the check itself', () => {
  it.each(['drop:1/2', 'brick:1/3', 'straight'])('catches a wrong lattice at %s', (layout) => {
    expectAstray(makeLinen({}, layout, '40x30mm'), 0.99);
  });
});

describe('bands', () => {
  it.each([300, 75, 8])('cut in any way give the same bits at %i dpi', (dpi) => {
    expectAnyCut(makeLinen(DYED, 'drop:1/2', '40x30mm', dpi), 60, 30);
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
    expectRunsOn(made);
  });
});
