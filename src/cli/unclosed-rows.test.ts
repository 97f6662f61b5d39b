import { describe, expect, it } from 'vitest';
import { unclosedOf, unlaidOf } from '../collection/disk/unclosed.ts';
import type { Grade } from '../inspect/index.ts';
import { unclosedRows, unlaidRows } from './unclosed-rows.ts';

type Graded = { closes: boolean; grade?: Grade; summary: string };

function rowsOf(seams: readonly Graded[]): string[] {
  const made = seams.map((one, index) => ({ name: `sprig/${index}.png`, seams: one }));
  const unclosed = unclosedOf(made);
  const count = (grade: string) => unclosed.filter((one) => one.grade === grade).length;
  const counts = {
    asked: made.length,
    made: made.length,
    failed: 0,
    missing: 0,
    open: count('open'),
    look: count('look'),
  };
  return unclosedRows({ counts, unclosed }).map((row) => row.join('|'));
}

const shut: Graded = { closes: true, summary: 'closes' };
const open: Graded = { closes: false, summary: 'left edge' };

describe('the end of a run', () => {
  it('says that all closes, where it does', () => {
    expect(rowsOf([shut, { ...shut, grade: 'closes' }])).toEqual(['seams|all that is there closes']);
  });
  it('names what is open, and apart from it what wants a look, whatever "closes" says of that', () => {
    const looks: Graded[] = [
      { ...shut, grade: 'look' },
      { ...open, grade: 'look' },
    ];
    expect(rowsOf([shut, open, ...looks, { ...open, grade: 'open' }])).toEqual([
      'open|2 of 5 do not close:',
      '|sprig/1.png',
      '|sprig/4.png',
      'look|2 of 5 want a look:',
      '|sprig/2.png',
      '|sprig/3.png',
    ]);
  });
  it('names ten, and says how many more there are', () => {
    const rows = rowsOf(Array.from({ length: 13 }, () => open));
    expect(rows).toHaveLength(12);
    expect(rows.at(-1)).toBe('|and 3 more; the report names all');
  });
});

describe('masks that took nothing', () => {
  it('are counted and named, older records without a share left out', () => {
    const laidOn = [undefined, [null], [0.4, 0], [0.00001], [1]];
    const made = laidOn.map((shares, index) => ({ name: `${index}.png`, laidOn: shares }));
    const unlaid = unlaidOf(made);
    expect(unlaid).toEqual(['2.png', '3.png']);
    const counts = { asked: 5, made: 5, failed: 0, missing: 0, open: 0, look: 0 };
    expect(unlaidRows({ counts, unlaid }).map(([, text]) => text)).toEqual([
      expect.stringContaining('2 of 5 have a step whose mask took nothing'),
      '2.png',
      '3.png',
    ]);
    expect(unlaidRows({ counts, unlaid: [] })).toEqual([]);
  });
});
