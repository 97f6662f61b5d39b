import { expect, it } from 'vitest';
import { fitGrid } from '../../../repeat/grid.ts';
import { parseLayout } from '../../../repeat/layout.ts';
import type { Stroke } from '../../words/work.ts';
import { GrowingResist, paintedResist } from './painted-resist.ts';

const grid = fitGrid({ layout: parseLayout('drop:1/2'), width: 40, height: 30 }, 2);
const strokes: Stroke[] = [
  { width: 6, softness: 0.4, points: [-4, 5, 1, 12, 20, 0.5] },
  { width: 3, softness: 0, points: [30, 28, 1, 44, 33, 1] },
  { width: 5, softness: 0.2, erases: true, points: [0, 0, 1, 20, 20, 1] },
  { width: 2, softness: 1, points: [10, 10, 1] },
];

it('a resist that grows, shrinks or changes comes to the bytes of one painted at once', () => {
  const growing = new GrowingResist();
  const changed = [strokes[0], { ...strokes[1], width: 4 }];
  const tried = [
    [],
    strokes.slice(0, 1),
    strokes.slice(0, 3),
    strokes,
    strokes.slice(0, 2),
    changed,
    strokes,
  ];
  for (const some of tried) {
    const samples = growing.samples({ strokes: some }, grid);
    expect(samples, `${some.length} strokes`).toEqual(paintedResist({ strokes: some }, grid));
  }
});
it('what was given out before stays as it was', () => {
  const growing = new GrowingResist();
  const first = growing.samples({ strokes: strokes.slice(0, 1) }, grid);
  const copy = first.slice();
  growing.samples({ strokes }, grid);
  expect(first).toEqual(copy);
});
