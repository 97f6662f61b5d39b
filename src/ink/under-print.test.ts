import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import type { Ink } from './card.ts';
import type { Plates } from './plates.ts';
import { printUnder } from './under-print.ts';

const ink = (name: string): Ink => ({ name, kind: 'ink', colour: [10, 20, 30], covers: true, note: '' });

/** Planes of three inks from rows of letters: a, b and c are all of one ink, a space is bare ground. */
function platesOf(rows: readonly string[]): Plates {
  const [width, height] = [rows[0].length, rows.length];
  const planes = ['a', 'b', 'c'].map((letter) =>
    Uint8Array.from(rows.join(''), (one) => (one === letter ? 255 : 0)),
  );
  return { width, height, inks: ['a', 'b', 'c'].map(ink), planes };
}

function rowsOf({ planes, width, height }: Plates, at: number): string[] {
  return Array.from({ length: height }, (_, y) =>
    [...planes[at].subarray(y * width, (y + 1) * width)].map((area) => (area > 127 ? '#' : '.')).join(''),
  );
}

describe('inks under an ink that is printed over them', () => {
  it('go on as they stand nearest, and bare ground stays bare', () => {
    const plates = platesOf(['aaaa    bbbb', 'aaccc  cccbb', 'aaaa    bbbb']);
    const added = printUnder(plates, parseLayout('straight'), 2);
    expect(rowsOf(plates, 0)[1]).toBe('####........');
    expect(rowsOf(plates, 1)[1]).toBe('........####');
    expect(rowsOf(plates, 2)[1]).toBe('..###..###..');
    expect(added).toBe(4);
  });

  it('are those before it alone: a later one is no ground to print on', () => {
    const plates = platesOf(['ccbbcc', 'ccbbcc']);
    expect(printUnder(plates, parseLayout('straight'), 1)).toBe(0);
  });

  it('go on over the edge of the tile, as the next copy stands', () => {
    // At half drop the copy to the right stands two rows lower: the row beside row 0 is row 2.
    const plates = platesOf(['   c', '    ', 'a   ', '    ']);
    printUnder(plates, parseLayout('drop:1/2'), 2);
    expect(rowsOf(plates, 0)[0]).toBe('...#');
    const straight = platesOf(['   c', '    ', 'a   ', '    ']);
    printUnder(straight, parseLayout('straight'), 2);
    expect(rowsOf(straight, 0)[0]).toBe('....');
  });

  it('fill up the soft edges of an ink', () => {
    const plates = platesOf(['aaaa']);
    plates.planes[0].set([255, 155, 0, 255]);
    plates.planes[2].set([0, 100, 255, 0]);
    printUnder(plates, parseLayout('straight'), 2);
    expect([...plates.planes[0]]).toEqual([255, 255, 255, 255]);
  });

  it('leave an ink alone that is all over', () => {
    expect(printUnder(platesOf(['cc', 'cc']), parseLayout('straight'), 2)).toBe(0);
  });
});
