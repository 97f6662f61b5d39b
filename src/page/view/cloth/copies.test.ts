import { describe, expect, it } from 'vitest';
import { latticeOf, parseLayout } from '../../../repeat/index.ts';
import { copiesIn } from './copies.ts';

/** Tries all copies about, and keeps those that touch. */
function byHand(seen: Parameters<typeof copiesIn>[0], part: typeof seen, layout: string): string[] {
  const { ax, ay, bx, by } = latticeOf(parseLayout(layout), 30, 20);
  const found: string[] = [];
  for (let m = -40; m <= 40; m++) {
    for (let n = -60; n <= 60; n++) {
      const left = part.left + m * ax + n * bx;
      const top = part.top + m * ay + n * by;
      const touches =
        left < seen.left + seen.width &&
        left + part.width > seen.left &&
        top < seen.top + seen.height &&
        top + part.height > seen.top;
      if (touches) found.push(`${m},${n}`);
    }
  }
  return found.sort();
}

describe('the copies of a part in view', () => {
  it.each(['straight', 'drop:1/3', 'brick:2/5'])('are all that touch it, and no other: %s', (layout) => {
    const part = { left: -7, top: 33, width: 11, height: 25 };
    for (const [left, top] of [
      [0, 0],
      [-311, 205],
      [23, -18],
      [4, 58],
    ]) {
      const seen = { left, top, width: 100, height: 45 };
      const copies = copiesIn(seen, part, latticeOf(parseLayout(layout), 30, 20));
      expect(copies.map(({ column, row }) => `${column},${row}`).sort()).toEqual(byHand(seen, part, layout));
    }
  });
});
