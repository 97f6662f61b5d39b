import { describe, expect, it } from 'vitest';
import { originsOf } from './origins.ts';
import { drySheet } from './sheet.ts';
import { openSheet, stepSheet } from './step.ts';
import { BUSY, barePaper, correlationOf, restless, STILL, shapeOf, sumOf } from './testing/sheets.ts';

describe('where paint came from', () => {
  it('is as far as an even film has run, in one direction', () => {
    const shape = shapeOf('straight', 40, 30);
    const sheet = drySheet(shape, barePaper(shape));
    sheet.water.fill(1);
    sheet.afloat.amount.fill(1);
    // A film of 1 on a fall of 1 runs levelling cells in a step.
    const running = openSheet(sheet);
    for (let step = 0; step < 50; step++) stepSheet(running, { ...STILL, levelling: 0.1, fallY: 1 });
    const { x, y, load } = originsOf(sheet);
    expect(sumOf(load) / load.length).toBeCloseTo(1, 5);
    for (let k = 0; k < y.length; k++) {
      expect(x[k]).toBeCloseTo(0, 6);
      // 5 cells of half a millimetre upward, less what the thinnest paint is taken to stay.
      expect(y[k]).toBeCloseTo(-2.5, 1);
    }
  });

  it('says of two inks how much of each there is, as if they were carried themselves', () => {
    // Two inks, the second carried in truth; what the ways tell is read off a soft edge between them.
    const sheet = restless('straight');
    const { shape } = sheet;
    const half = (k: number) => Math.floor(k / shape.width) % 15 < 7;
    sheet.settled.amount.fill(0);
    sheet.afloat.amount.fill(1);
    sheet.second!.afloat.set(sheet.afloat.amount.map((_, k) => (half(k) ? 1 : 0)));
    const running = openSheet(sheet);
    for (let step = 0; step < 20; step++)
      stepSheet(running, { ...BUSY, settling: 0.001, fixing: 0.001, lifting: 0 });
    const { load, y, spread } = originsOf(sheet);
    const truth = sheet.second!.afloat.map((amount, k) => amount + sheet.second!.settled[k]);
    const told = load.map((amount, k) => {
      const row = Math.floor(k / shape.width) + y[k] / shape.mmPerCellY;
      const soft = Math.max(0.4, spread[k] / shape.mmPerCellY);
      let [inside, all] = [0, 0];
      for (let n = -12; n <= 12; n++) {
        const weight = Math.exp(-0.5 * (n / soft) ** 2);
        all += weight;
        const at = Math.round(row + n);
        if ((((at % 30) + 30) % 30) % 15 < 7) inside += weight;
      }
      return (amount * inside) / all;
    });
    expect(correlationOf(told, truth)).toBeGreaterThan(0.9);
  });
});
