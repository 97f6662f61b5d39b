import { describe, expect, it } from 'vitest';
import { tilePixelFinder } from '../../repeat/fold.ts';
import { type Grid, gridOfPixels } from '../../repeat/grid.ts';
import { parseLayout } from '../../repeat/layout.ts';
import type { Stroke } from '../words/work.ts';
import { openResist, resistSamples } from './resist.ts';

const LAYOUTS = [
  'straight',
  'drop:1/2',
  'drop:1/3',
  'drop:2/5',
  'brick:1/2',
  'brick:1/3',
  'brick:2/5',
  'mirror-x',
  'mirror-y',
  'mirror-xy',
  'turn',
];

/** A tile of 30 x 30 mm. */
function gridOf(layout: string, pixels: number): Grid {
  return gridOfPixels({ layout: parseLayout(layout), width: 30, height: 30 }, pixels, pixels);
}

const paint = (grid: Grid, ...strokes: Stroke[]) => resistSamples({ strokes }, grid);
const areaOf = (samples: Uint8Array, grid: Grid) =>
  (samples.reduce((sum, sample) => sum + sample, 0) / 255) * grid.mmPerPixelX * grid.mmPerPixelY;

/** Over four seams and back: no point in the tile itself but the first. */
const WANDERING: Stroke = {
  width: 7,
  softness: 0.5,
  points: [25, 26, 1, 41, 37, 0.4, 47.5, 12, 0.9, -13, -8, 0.7],
};

describe('a resist', () => {
  // The area of a capsule and of a disc; of a soft dab the volume under 1 - 3t^2 + 2t^3 turned about its middle, 3 pi r^2 / 10.
  it('covers as much as geometry says', () => {
    const grid = gridOf('straight', 240);
    const line = paint(grid, { width: 6, softness: 0, points: [8, 9, 1, 20, 14, 1] });
    expect(areaOf(line, grid)).toBeCloseTo(Math.PI * 9 + 6 * 13, 1);
    const dab = paint(grid, { width: 6, softness: 0, points: [15, 15, 1] });
    expect(areaOf(dab, grid)).toBeCloseTo(Math.PI * 9, 1);
    const soft = paint(grid, { width: 20, softness: 1, points: [15, 15, 1] });
    expect(areaOf(soft, grid)).toBeCloseTo(Math.PI * 30, 0);
    const light = paint(grid, { width: 6, softness: 0, points: [15, 15, 0.5] });
    expect(areaOf(light, grid)).toBeCloseTo(Math.PI * 2.25, 1);
  });

  // Two circles of different size and their outer tangents: its area follows from the angle of the tangents.
  it('is as wide as the pressure, evenly from point to point', () => {
    const grid = gridOf('straight', 240);
    const [r0, r1, length] = [4, 1.5, 14];
    const lean = Math.asin((r0 - r1) / length);
    const tangent = Math.sqrt(length ** 2 - (r0 - r1) ** 2);
    const expected = (r0 + r1) * tangent + r0 ** 2 * (Math.PI / 2 + lean) + r1 ** 2 * (Math.PI / 2 - lean);
    const samples = paint(grid, { width: 8, softness: 0, points: [8, 15, 1, 22, 15, 1.5 / 4] });
    expect(areaOf(samples, grid)).toBeCloseTo(expected, 1);
  });

  it('is lifted where the pressure is nothing, and never where there is no number', () => {
    const grid = gridOf('straight', 60);
    expect(areaOf(paint(grid, { width: 8, softness: 0.5, points: [8, 15, 0, 9, 15, 0] }), grid)).toBe(0);
    const swelling = paint(grid, { width: 8, softness: 0.5, points: [8, 15, 0, 9, 15, 1, 9, 15, 1] });
    expect(areaOf(swelling, grid)).toBeGreaterThan(10);
  });

  it.each(LAYOUTS.flatMap((layout) => [0, 0.5, 1].map((softness) => [layout, softness] as const)))(
    'over %s with softness %f is what dabs without number come to, folded as the host folds',
    (layout, softness) => {
      const grid = gridOf(layout, 30);
      const samples = paint(grid, { ...WANDERING, softness });
      const expected = byHand(grid, { ...WANDERING, softness });
      const off = Array.from(samples, (sample, at) => Math.abs(sample - expected[at])).sort((a, b) => a - b);
      // Where two pieces of a stroke meet within a pixel of 1 mm, the most of two means is less than the mean of the most.
      expect(off[Math.floor(off.length * 0.96)]).toBeLessThan(14);
      expect(off.reduce((sum, one) => sum + one, 0) / off.length).toBeLessThan(1.6);
      expect(Math.min(...samples)).toBe(0);
      expect(Math.max(...samples)).toBeGreaterThan(245);
    },
  );

  it.each(LAYOUTS)('over %s shows nothing of the way it came', (layout) => {
    const grid = gridOf(layout, 60);
    const { ax, ay, bx, by } = grid.box.lattice;
    const there = (m: number, n: number): Stroke => ({
      ...WANDERING,
      points: WANDERING.points.map((value, at) =>
        at % 3 === 2 ? value : at % 3 === 0 ? value + m * ax + n * bx : value + m * ay + n * by,
      ),
    });
    const home = paint(grid, there(0, 0));
    for (const [m, n] of [
      [1, 0],
      [0, 1],
      [-3, 2],
    ]) {
      const away = paint(grid, there(m, n));
      home.forEach((sample, at) => {
        if (Math.abs(sample - away[at]) > 1) throw new Error(`pixel ${at}: ${sample} and ${away[at]}`);
      });
    }
  });

  it.each(LAYOUTS)('over %s is the same at 75 dpi as at 300', (layout) => {
    const [coarse, fine] = [gridOf(layout, 90), gridOf(layout, 360)];
    const [from, to] = [paint(fine, WANDERING), paint(coarse, WANDERING)];
    const off = Array.from(to, (sample, at) => {
      const [column, row] = [at % 90, Math.floor(at / 90)];
      let sum = 0;
      for (let y = 0; y < 4; y++)
        for (let x = 0; x < 4; x++) sum += from[(row * 4 + y) * 360 + column * 4 + x];
      return Math.abs(sample - sum / 16);
    }).sort((a, b) => a - b);
    expect(off[Math.floor(off.length * 0.99)]).toBeLessThan(4);
    // Where copies meet within a pixel.
    expect(off.at(-1)).toBeLessThan(32);
  });

  it('has no beads where a stroke meets itself', () => {
    const grid = gridOf('straight', 60);
    const once: Stroke = { width: 8, softness: 1, points: [5, 15, 1, 25, 15, 1] };
    const often: Stroke = { ...once, points: [...once.points, 5, 15, 1, 9, 15, 1, 9, 15, 1, 25, 15, 1] };
    expect(paint(grid, often)).toEqual(paint(grid, once));
    const rubbed = { erases: true, ...often };
    const ground: Stroke = { width: 200, softness: 0, points: [0, 0, 1] };
    expect(paint(grid, ground, rubbed)).toEqual(paint(grid, ground, { ...once, erases: true }));
  });

  it('erases what it covers, strokes one after the other', () => {
    const grid = gridOf('straight', 60);
    const ground: Stroke = { width: 200, softness: 0, points: [0, 0, 1] };
    const dab: Stroke = { width: 8, softness: 1, points: [15, 15, 1], erases: true };
    const cover = paint(grid, { ...dab, erases: false });
    expect(paint(grid, ground).every((sample) => sample === 255)).toBe(true);
    expect(paint(grid, ground, dab)).toEqual(cover.map((sample) => 255 - sample));
    const twice = paint(grid, ground, dab, dab);
    twice.forEach((sample, at) => {
      expect(Math.abs(sample - (255 - cover[at]) ** 2 / 255)).toBeLessThan(1.01);
    });
  });

  it('grown bit by bit comes to the same bytes, and says all that it touched', () => {
    const grid = gridOf('drop:2/5', 90);
    for (const erases of [false, true]) {
      const strokes: Stroke[] = [
        { width: 40, softness: 1, points: [20, 4, 1] },
        { ...WANDERING, erases },
      ];
      const whole = paint(grid, ...strokes);
      const open = openResist(grid);
      open.add(strokes[0]);
      let before = open.samples.slice();
      open.add({ ...strokes[1], points: [] });
      for (let at = 0; at < WANDERING.points.length; at += 3) {
        const touched = open.grow(WANDERING.points.slice(at, at + 3));
        for (const { left, top, width, height } of touched)
          for (let row = top; row < top + height; row++)
            before.set(open.samples.subarray(row * 90 + left, row * 90 + left + width), row * 90 + left);
        expect(before).toEqual(open.samples);
        before = open.samples.slice();
      }
      expect(open.samples).toEqual(whole);
    }
  });

  it('takes a brush many times as wide as the tile', () => {
    const grid = gridOf('brick:1/3', 30);
    expect(paint(grid, { width: 2000, softness: 0, points: [9, 1, 1] }).every((s) => s === 255)).toBe(true);
    // The furthest that a place is from a copy of the dab is the same share of the radius everywhere.
    const soft = paint(grid, { width: 2000, softness: 1, points: [9, 1, 1, 900, -300, 1] });
    expect(Math.min(...soft)).toBeGreaterThan(253);
  });

  it('touches only the pixels of a stroke', () => {
    const grid = gridOf('drop:1/2', 600);
    const open = openResist(grid);
    const touched = open.add({ width: 2, softness: 0, points: [1, 1, 1, 29, 29, 1] });
    const dab = open.add({ width: 2, softness: 0, points: [10, 10, 1] });
    expect(touched.length).toBeGreaterThan(1);
    expect(dab).toHaveLength(1);
    expect(dab[0].width).toBeLessThan(45);
  });

  it.each<[string, Partial<Stroke>, RegExp]>([
    ['no width', { width: 0 }, /a width from 0.2 to 2000 mm/],
    ['no number', { width: Number.NaN }, /a width/],
    ['too soft', { softness: 1.5 }, /a softness from 0 to 1/],
    ['half a point', { points: [1, 2] }, /three numbers a point/],
    ['a point beyond all', { points: [1e9, 2, 1] }, /within 1000000 mm/],
    ['a point nowhere', { points: [Number.NaN, 2, 1] }, /within 1000000 mm/],
    ['too hard a hand', { points: [1, 2, 3] }, /pressures from 0 to 1/],
  ])('refuses a stroke with %s', (_name, part, message) => {
    const grid = gridOf('straight', 30);
    expect(() => paint(grid, { ...WANDERING, ...part })).toThrow(message);
    expect(() => openResist(grid).grow([Number.NaN, 1, 1])).toThrow(/within/);
  });
});

/** Every pixel of the plane around, in 36 places, under dabs that lie close; each folded onto the tile by the host's way. */
function byHand(grid: Grid, { width, softness, points }: Stroke): Uint8Array {
  const find = tilePixelFinder(grid);
  const dabs: number[][] = [];
  for (let at = 3; at < points.length; at += 3) {
    for (let step = 0; step <= 150; step++) {
      const value = (part: number) =>
        points[at - 3 + part] + (step / 150) * (points[at + part] - points[at - 3 + part]);
      dabs.push([value(0), value(1), (width / 2) * value(2)]);
    }
  }
  const samples = new Uint8Array(grid.tileWidth * grid.tileHeight);
  const mm = grid.mmPerPixelX;
  for (let row = -14; row < 44; row++) {
    for (let column = -18; column < 54; column++) {
      const near = dabs.filter(
        ([x, y, r]) => (x - (column + 0.5) * mm) ** 2 + (y - (row + 0.5) * mm) ** 2 < (r + mm) ** 2,
      );
      if (near.length === 0) continue;
      let sum = 0;
      for (let part = 0; part < 36; part++) {
        const [x, y] = [
          (column + ((part % 6) + 0.5) / 6) * mm,
          (row + (Math.floor(part / 6) + 0.5) / 6) * mm,
        ];
        let most = 0;
        for (const [atX, atY, radius] of near) {
          const away = Math.sqrt((x - atX) ** 2 + (y - atY) ** 2) / radius;
          const t =
            softness === 0 ? (away < 1 ? 0 : 1) : Math.min(1, Math.max(0, (away - 1 + softness) / softness));
          most = Math.max(most, 1 - t * t * (3 - 2 * t));
        }
        sum += most;
      }
      const at = find(column, row);
      samples[at] = Math.max(samples[at], Math.round((255 * sum) / 36));
    }
  }
  return samples;
}
