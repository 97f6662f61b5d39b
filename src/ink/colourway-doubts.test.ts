import { describe, expect, it } from 'vitest';
import type { Ink, ShadeCard } from './card.ts';
import { type ColourwayDoubt, colourwayDoubts } from './colourway-doubts.ts';

const card = (...colours: Ink['colour'][]): ShadeCard => ({
  name: 'test',
  inks: colours.map((colour, at) => ({
    ...{ name: `ink ${at}`, kind: 'ink', colour },
    covers: true,
    note: '',
  })),
});
const doubts = (before: Ink['colour'][], after: Ink['colour'][]): ColourwayDoubt[] =>
  colourwayDoubts(card(...before), { name: 'other', colours: after });

const WHITE: Ink['colour'] = [250, 248, 240];
const BLACK: Ink['colour'] = [20, 20, 24];
const GREY: Ink['colour'] = [128, 128, 128];
/** CIEDE2000 of about 1.2 from GREY. */
const GREYISH: Ink['colour'] = [131, 131, 131];

describe('what a colourway does to a design', () => {
  it('is told where two inks that differed become alike', () => {
    const [found, ...more] = doubts([WHITE, GREY], [GREY, GREYISH]);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ kind: 'alike', inks: ['ink 0', 'ink 1'] });
    expect(found.after).toBeLessThan(2);
    expect(found.before).toBeGreaterThan(20);
  });
  it('is no news of two that were alike before', () => {
    expect(doubts([GREY, GREYISH], [WHITE, WHITE])).toEqual([]);
  });
  it('is told where light and dark change places, the lighter first', () => {
    const [found, ...more] = doubts([BLACK, WHITE], [WHITE, BLACK]);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ kind: 'reversed', inks: ['ink 1', 'ink 0'] });
    expect(found.before).toBeCloseTo(-found.after);
  });
  it('is not told where neither was much lighter', () => {
    expect(doubts([GREY, [140, 128, 128]], [BLACK, WHITE])).toEqual([]);
  });
});
