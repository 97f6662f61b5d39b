import { describe, expect, it } from 'vitest';
import { makeLinen } from '../testing/linen-weave.ts';
import { meanOf } from '../testing/measure.ts';
import { paintFarRow } from './far.ts';
import type { Axis } from './raster.ts';
import { openRow } from './row.ts';

describe('from afar', () => {
  const { model } = makeLinen({}, 'drop:1/2', '40x40mm');
  const { ends, picks } = model.sett;
  const axis = (count: number, span: number): Axis => ({ count, span, scale: 0 });
  const draw = (columns: number, rows: number) => {
    const picture: number[] = [];
    const row = openRow(columns);
    for (let y = 0; y < rows; y++) {
      paintFarRow(model, axis(ends, columns), axis(picks, rows), 0, y, row);
      picture.push(...row.shade);
    }
    return picture;
  };
  const crossings = draw(ends, picks);

  it('a pixel of four by four crossings is their mean', () => {
    const small = draw(ends / 4, picks / 4);
    for (const [x, y] of [
      [0, 0],
      [5, 3],
      [ends / 4 - 1, picks / 4 - 1],
    ]) {
      const block = Array.from(
        { length: 16 },
        (_, k) => crossings[(4 * y + (k >> 2)) * ends + 4 * x + (k & 3)],
      );
      expect(small[(y * ends) / 4 + x]).toBeCloseTo(meanOf(block), 5);
    }
  });
  it.each([
    [7, 7],
    [13, 29],
    [1, 1],
  ])('%i x %i pixels share out all the light there is', (columns, rows) => {
    expect(meanOf(draw(columns, rows))).toBeCloseTo(meanOf(crossings), 5);
  });
});
