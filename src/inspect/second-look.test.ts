import { describe, expect, it } from 'vitest';
import { tilePixelFinder } from '../repeat/fold.ts';
import { gridOfPixels } from '../repeat/grid.ts';
import { parseLayout } from '../repeat/layout.ts';
import { checkSeams } from './check.ts';
import { gradeOf, worstGrade } from './grade.ts';
import { roll } from './roll.ts';
import { seamsOf } from './seam.ts';

describe('grades', () => {
  it('says open only of what is more than a doubt, and not explained by the picture elsewhere', () => {
    expect(gradeOf(1, 0, 'moved')).toBe('closes');
    expect(gradeOf(1.1, 0.9, 'moved')).toBe('look');
    expect(gradeOf(1.1, 1.2, 'moved')).toBe('closes');
    expect(gradeOf(1.5, 0.9, 'moved')).toBe('open');
    expect(gradeOf(1.5, 1.2, 'moved')).toBe('look');
    expect(gradeOf(3, 1.2, 'moved')).toBe('open');
    expect(gradeOf(1.7, 0, 'turned')).toBe('look');
    expect(gradeOf(1.7, 0, 'mirrored')).toBe('open');
    expect(worstGrade(['closes', 'look'])).toBe('look');
    expect(worstGrade(['look', 'open', 'closes'])).toBe('open');
    expect(worstGrade([])).toBe('closes');
  });
});

describe('roll', () => {
  it.each(['straight', 'drop:1/2', 'drop:1/3', 'brick:1/2', 'brick:1/3'])(
    'shows the plane of %s from another corner',
    (text) => {
      const [width, height] = [12, 18];
      const layout = parseLayout(text);
      const find = tilePixelFinder(gridOfPixels({ layout, width, height }, width, height));
      const pixels = new Uint16Array(4 * width * height).map((_, k) => k);
      for (const seam of seamsOf(layout, width, height))
        for (const by of [1, 5, 11]) {
          const rolled = roll({ pixels, width, height }, seam, by);
          const [dx, dy] = seam.axis === 'column' ? [by, 0] : [0, by];
          for (let k = 0; k < width * height; k++)
            expect(rolled.pixels[4 * k] >> 2).toBe(find((k % width) + dx, Math.floor(k / width) + dy));
        }
    },
  );
});

describe('a step at the edge, higher and higher over grain', () => {
  const SIDE = 160;
  /** Soft clouds with grain that close over the tile, and a step of tone between its right and left edge. */
  function stepped(levels: number) {
    let state = 5;
    const pixels = new Uint8Array(4 * SIDE * SIDE);
    for (let k = 0; k < SIDE * SIDE; k++) {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      const turn = (2 * Math.PI) / SIDE;
      const [x, y] = [k % SIDE, Math.floor(k / SIDE)];
      const cloud = 20 * Math.sin(turn * (2 * x + y)) + 15 * Math.cos(turn * (x - 3 * y));
      pixels.fill(130 + cloud + (state >>> 28) + (levels * x) / SIDE, 4 * k, 4 * k + 3);
      pixels[4 * k + 3] = 255;
    }
    return checkSeams({ pixels, width: SIDE, height: SIDE }, parseLayout('straight'));
  }
  const grades = [0, 1, 2, 3, 4, 5, 6, 8, 12, 20].map((levels) => stepped(levels));

  it('closes, wants a look, is open, in that order', () => {
    const order = ['closes', 'look', 'open'];
    const steps = grades.map(({ grade }) => order.indexOf(grade));
    expect(steps[0]).toBe(0);
    expect(steps.at(-1)).toBe(2);
    expect(steps).toEqual([...steps].sort());
  });
  it('tells of each grade what a person needs', () => {
    for (const { grade, closes, summary, worst } of grades) {
      expect(closes).toBe(grade !== 'open');
      if (grade === 'closes') expect(summary).toContain('Closes over straight');
      else {
        expect(worst!.place.edge).toBe('right');
        expect(summary).toContain(grade === 'look' ? 'may be open' : 'is open');
        expect(summary).toMatch(/colour difference of [\d.]+ .* px/);
      }
    }
  });
});

it('says of mirror lines that close what it cannot see there', () => {
  const pixels = new Uint8Array(4 * 64 * 64).fill(200);
  expect(checkSeams({ pixels, width: 64, height: 64 }, parseLayout('mirror-x')).summary).toContain(
    'misses half the time',
  );
  expect(checkSeams({ pixels, width: 64, height: 64 }, parseLayout('straight')).summary).not.toContain(
    'misses half',
  );
});
