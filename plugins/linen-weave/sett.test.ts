import { boxOf, parseLayout, parseSize } from 'tenter';
import { describe, expect, it } from 'vitest';
import { draftOf, isWarpUp, type Weave } from './draft.ts';
import { snapSett } from './sett.ts';

const box = (layout: string, size: string) => boxOf({ layout: parseLayout(layout), ...parseSize(size) });

describe('a sett', () => {
  // By the parity rules of each weave: plain needs Ne + S and B + Np even, 2/2 twill multiples of 4, satin-5 of 5.
  it.each<[Weave, string, number, number]>([
    ['plain', 'straight', 384, 416],
    ['plain', 'drop:1/2', 384, 416],
    ['twill', 'drop:1/2', 384, 416],
    ['basket', 'drop:1/2', 384, 416],
    ['plain', 'drop:1/3', 384, 414],
    ['satin', 'drop:1/2', 385, 420],
  ])('of %s at %s, asked 12 x 13 per cm on 320 mm, is %i x %i', (weave, layout, ends, picks) => {
    const sett = snapSett(draftOf(weave, 0, 0), box(layout, '320x320mm'), 1.2, 1.3);
    expect([sett.ends, sett.picks]).toEqual([ends, picks]);
  });

  const layouts = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/3', 'brick:3/7'];
  const sizes = ['320x320mm', '100x63mm', '41x29mm', '3x2mm', '1x1mm'];
  const weaves: [Weave, number, number][] = [
    ['plain', 0, 0],
    ['twill', 4, 1],
    ['twill', 3, 2],
    ['basket', 6, 0],
    ['satin', 5, 3],
    ['satin', 11, 4],
  ];
  it.each(layouts)('closes over %s: the weave drawn over the plane is its own translate', (layout) => {
    for (const size of sizes) {
      for (const [weave, order, move] of weaves) {
        const draft = draftOf(weave, order, move);
        const { ends, picks, endStep, pickStep } = snapSett(draft, box(layout, size), 1.2, 1.3);
        expect(Number.isInteger(endStep) && Number.isInteger(pickStep)).toBe(true);
        const { kind, numerator, denominator } = parseLayout(layout);
        expect(pickStep * denominator).toBe(kind === 'drop' ? picks * numerator : 0);
        expect(endStep * denominator).toBe(kind === 'brick' ? ends * numerator : 0);
        for (let i = 0; i < 12; i++) {
          for (let j = 0; j < 12; j++) {
            expect(isWarpUp(draft, i + ends, j + pickStep)).toBe(isWarpUp(draft, i, j));
            expect(isWarpUp(draft, i + endStep, j + picks)).toBe(isWarpUp(draft, i, j));
          }
        }
      }
    }
  });
});
