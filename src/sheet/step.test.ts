import { describe, expect, it } from 'vitest';
import { linesAlong } from '../field/lines.ts';
import { cellIndex } from '../field/periodic.ts';
import { openAxis, passLines } from './lines-pass.ts';
import type { SheetRates } from './rates.ts';
import { drySheet, type Sheet } from './sheet.ts';
import { openSheet, stepSheet } from './step.ts';
import { BUSY, barePaper, LAYOUTS, restless, STILL, shapeOf, sumOf } from './testing/sheets.ts';

function run(sheet: Sheet, rates: SheetRates, steps: number): Sheet {
  const running = openSheet(sheet);
  for (let step = 0; step < steps; step++) stepSheet(running, rates);
  return sheet;
}

const paintOf = ({ afloat, settled }: Sheet) => afloat.amount.map((amount, k) => amount + settled.amount[k]);

describe.each(LAYOUTS)('a sheet over %s', (layout) => {
  it('keeps all of both paints within 1e-6, and nowhere less than none', () => {
    const sheet = restless(layout);
    const before = paintOf(sheet);
    const second = sumOf(sheet.second!.afloat);
    run(sheet, BUSY, 66);
    const after = paintOf(sheet);
    expect(Math.abs(sumOf(after) / sumOf(before) - 1)).toBeLessThan(1e-6);
    const both = sumOf(sheet.second!.afloat) + sumOf(sheet.second!.settled);
    expect(Math.abs(both / second - 1)).toBeLessThan(1e-6);
    expect(Math.min(...after, ...sheet.water, ...sheet.second!.afloat)).toBeGreaterThanOrEqual(0);
    expect(after.some((amount, k) => Math.abs(amount - before[k]) > 0.2)).toBe(true);
  });

  it('moved by whole cells is the same sheet moved', () => {
    const home = paintOf(run(restless(layout), BUSY, 12));
    const moved = run(restless(layout, 11, -7), BUSY, 12);
    const there = paintOf(moved);
    for (let j = 0; j < 30; j++)
      for (let i = 0; i < 30; i++)
        expect(there[cellIndex(moved.shape, i + 11, j - 7)]).toBeCloseTo(home[i + 30 * j], 5);
  });
});

describe('a film', () => {
  it('that levels without drying keeps its water and stays between its highest and lowest', () => {
    const sheet = restless('drop:1/2');
    const paper = barePaper(sheet.shape);
    const level: Sheet = { ...sheet, paper, water: sheet.water.map((water) => 0.2 + water) };
    const before = [sumOf(level.water), Math.min(...level.water), Math.max(...level.water)];
    run(level, STILL, 40);
    expect(Math.abs(sumOf(level.water) / before[0] - 1)).toBeLessThan(1e-6);
    expect(Math.min(...level.water)).toBeGreaterThanOrEqual(before[1] - 1e-6);
    expect(Math.max(...level.water)).toBeLessThanOrEqual(before[2] + 1e-6);
  });

  it('shallower than its shores pin stays where it is', () => {
    const shape = shapeOf('straight', 40, 40);
    const paper = barePaper(shape, 0.5);
    paper.pin.fill(0.2);
    const sheet = drySheet(shape, paper);
    sheet.water.fill(0.4);
    for (let j = 15; j < 25; j++) sheet.water.fill(0.69, 40 * j + 15, 40 * j + 25);
    const wet = () => sheet.water.reduce((count, water) => count + (water > 0.5 ? 1 : 0), 0);
    run(sheet, { ...STILL, suction: 1 }, 50);
    expect(wet()).toBe(100);
    for (let j = 15; j < 25; j++) sheet.water.fill(0.78, 40 * j + 15, 40 * j + 25);
    run(sheet, { ...STILL, suction: 1 }, 50);
    expect(wet()).toBeGreaterThan(110);
  });
});

describe('a film on a tilted sheet', () => {
  // H. E. Huppert, Flow and instability of a viscous current down a slope, Nature 300 (1982): the front of a
  // given volume A of h_t + c (h^3)_x = 0 stands at (27 A^2 c t / 4)^(1/3).
  it('runs as the cube root of time', () => {
    const shape = shapeOf('straight', 260, 1);
    const sheet = drySheet(shape, barePaper(shape));
    const [c, area] = [0.02, 40];
    sheet.water.fill(1, 20, 20 + area);
    const rates = { ...STILL, levelling: 0.002, fallX: c / 0.002 };
    const axis = openAxis(linesAlong(shape, 'x'), true);
    const notes = { flow: new Float32Array(260), dry: new Uint8Array(260) };
    const fronts: [time: number, far: number][] = [];
    for (let step = 1; step <= 32_768; step++) {
      passLines(sheet, axis, rates, notes);
      if (step < 8192 || (step & (step - 1)) !== 0) continue;
      let k = 259;
      while (sheet.water[k] < 0.02) k--;
      fronts.push([step, k - 20]);
    }
    expect(Math.abs(sumOf(sheet.water) / area - 1)).toBeLessThan(1e-4);
    const [first, last] = [fronts[0], fronts[fronts.length - 1]];
    const exponent = Math.log(last[1] / first[1]) / Math.log(last[0] / first[0]);
    expect(exponent).toBeGreaterThan(0.31);
    expect(exponent).toBeLessThan(0.36);
    for (const [time, far] of fronts)
      expect(Math.abs(far / ((27 * area * area * c * time) / 4) ** (1 / 3) - 1)).toBeLessThan(0.08);
  });
});

describe('a drying drop', () => {
  // R. Deegan and others, Capillary flow as the cause of ring stains from dried liquid drops (1997).
  it.each([
    ['leaves its paint at the rim where the rim dries faster', 1.5, 1.2, 9],
    ['and leaves none there where it dries alike', 0, 0.8, 1.1],
  ])('%s', (_, dryingAtEdges, least, most) => {
    const shape = shapeOf('straight', 64, 64);
    const paper = barePaper(shape, 0.2);
    paper.pin.fill(9);
    const sheet = drySheet(shape, paper);
    const radius = (k: number) => Math.hypot((k % 64) - 31.5, Math.floor(k / 64) - 31.5);
    for (let k = 0; k < sheet.water.length; k++) {
      if (radius(k) > 20) continue;
      sheet.water[k] = 1.2;
      sheet.afloat.amount[k] = 1;
    }
    run(sheet, { ...STILL, levelling: 20, drying: 0.01, dryingAtEdges, fixing: 0.1 }, 120);
    const paint = paintOf(sheet);
    const mean = (from: number, to: number) => {
      const ring = paint.filter((_, k) => radius(k) >= from && radius(k) < to);
      return sumOf(ring) / ring.length;
    };
    const ring = mean(18.5, 20) / mean(0, 10);
    expect(ring).toBeGreaterThan(least);
    expect(ring).toBeLessThan(most);
  });
});
