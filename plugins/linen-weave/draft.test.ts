import { Fault } from 'tenter';
import { describe, expect, it } from 'vitest';
import { type Draft, draftOf, isSymmetry, isWarpUp, satinMoves, warpShare } from './draft.ts';

const faultOf = (call: () => unknown): Fault => {
  try {
    call();
  } catch (error) {
    if (error instanceof Fault) return error;
  }
  throw new Error('no Fault was thrown');
};

/** The longest run of warp over neighbouring picks on one end. */
function longestFloat(draft: Draft): number {
  let longest = 0;
  for (let i = 0; i < draft.across; i++) {
    for (let j = 0, run = 0; j < 3 * draft.down; j++) {
      run = isWarpUp(draft, i, j) ? run + 1 : 0;
      longest = Math.max(longest, run);
    }
  }
  return longest;
}

describe('satin', () => {
  // Wolfensberger, Theory of Silk Weaving, lists 5:2; 7:2,3; 8:3; 9:2,4; 10:3; 11:2-5; 12:5 (smaller of each pair); no 6.
  it.each([
    [5, [2, 3]],
    [6, []],
    [7, [2, 3, 4, 5]],
    [8, [3, 5]],
    [9, [2, 4, 5, 7]],
    [10, [3, 7]],
    [11, [2, 3, 4, 5, 6, 7, 8, 9]],
    [12, [5, 7]],
  ])('of %i threads has the moves %j', (order, moves) => {
    expect(satinMoves(order)).toEqual(moves);
  });
  it.each([
    [5, 2],
    [7, 3],
    [8, 5],
  ])('of %i by %i binds each thread once and floats over the rest', (order, move) => {
    const draft = draftOf('satin', order, move);
    expect(warpShare(draft)).toBeCloseTo((order - 1) / order, 12);
    expect(longestFloat(draft)).toBe(order - 1);
    for (let k = 0; k < order; k++) {
      const bindings = Array.from({ length: order }, (_, n) => n);
      expect(bindings.filter((n) => !isWarpUp(draft, k, n))).toHaveLength(1);
      expect(bindings.filter((n) => !isWarpUp(draft, n, k))).toHaveLength(1);
    }
  });
  it('of 6 threads is refused, and so is a move that makes a twill', () => {
    expect(faultOf(() => draftOf('satin', 6, 0)).kind).toBe('usage');
    expect(faultOf(() => draftOf('satin', 8, 2)).message).toContain('one of 3, 5');
    expect(faultOf(() => draftOf('satin', 5, 4)).message).toContain('one of 2, 3');
  });
});

describe('the other weaves', () => {
  it('plain goes over one and under one, whatever the order', () => {
    const draft = draftOf('plain', 7, 3);
    expect([...draft.warpUp]).toEqual([1, 0, 0, 1]);
  });
  it('twill floats over half its threads and moves by one', () => {
    const draft = draftOf('twill', 0, 0);
    expect([warpShare(draft), longestFloat(draft)]).toEqual([0.5, 2]);
    // The line climbs to the right: one end on, one pick up the page.
    expect(isSymmetry(draft, 1, -1)).toBe(true);
    expect(isSymmetry(draft, 1, 1)).toBe(false);
    expect(isSymmetry(draftOf('twill', 4, 3), 1, 1)).toBe(true);
    expect(faultOf(() => draftOf('twill', 4, 2)).message).toContain('one of 1, 3');
  });
  it('basket is plain weave in groups', () => {
    const draft = draftOf('basket', 6, 0);
    expect(longestFloat(draft)).toBe(3);
    expect(isSymmetry(draft, 3, 3)).toBe(true);
    expect(isSymmetry(draft, 3, 0)).toBe(false);
    expect(faultOf(() => draftOf('basket', 5, 0)).kind).toBe('usage');
  });
});
