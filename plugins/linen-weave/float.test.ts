import { describe, expect, it } from 'vitest';
import { basketDraft, plainDraft, satinDraft, twillDraft } from './draft.ts';
import { floatsOf } from './float.ts';

describe('floats', () => {
  it('of a plain weave pass over one thread, and have their middle on it', () => {
    const { toMiddle, length } = floatsOf(plainDraft());
    expect([...toMiddle]).toEqual([0, 0, 0, 0]);
    expect([...length]).toEqual([1, 1, 1, 1]);
  });
  it.each([
    ['twill 2/2', twillDraft(4, 1)],
    ['basket 2/2', basketDraft(4)],
  ])('of a %s pass over two, with their middle between', (_, draft) => {
    const { toMiddle, length } = floatsOf(draft);
    expect(new Set(length)).toEqual(new Set([2]));
    expect([...toMiddle].filter((way) => way === 0.5)).toHaveLength(8);
    expect([...toMiddle].filter((way) => way === -0.5)).toHaveLength(8);
  });
  it('of a satin over five pass over four on the face, and over one where they are bound', () => {
    const { warpUp, ...draft } = satinDraft(5, 2);
    const { toMiddle, length } = floatsOf({ ...draft, warpUp });
    length.forEach((crossings, at) => {
      expect(crossings).toBe(warpUp[at] ? 4 : 1);
    });
    // End 0 is bound by pick 0, so its float runs over picks 1 to 4.
    expect([1, 2, 3, 4].map((pick) => toMiddle[pick * 5])).toEqual([1.5, 0.5, -0.5, -1.5]);
    expect(toMiddle[0]).toBe(0);
  });
});
