import fc from 'fast-check';
import FFT from 'fft.js';
import { boxOf, type NumberParameter, parseLayout, randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { makeSilk, paintSilk } from '../testing/raw-silk.ts';
import silk from './index.ts';
import { lightRibs, RIB_STEPS, TABLE_STEPS } from './light.ts';
import { setUpLoom } from './loom.ts';
import { packPicks } from './pack.ts';
import { slubBody } from './slubs.ts';

describe('loom', () => {
  const fractions = ['straight', 'drop:1/2', 'drop:1/3', 'drop:3/7', 'brick:1/2', 'brick:2/5'];
  it('plain weave closes over any box: over and under change with every step across or down', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...fractions),
        fc.double({ min: 1, max: 400, noNaN: true }),
        fc.double({ min: 1, max: 400, noNaN: true }),
        fc.double({ min: 2, max: 8, noNaN: true }),
        fc.double({ min: 0.8, max: 4, noNaN: true }),
        (layout, width, height, endsPerMm, picksPerMm) => {
          const box = boxOf({ layout: parseLayout(layout), width, height });
          const { ends, shape } = setUpLoom(box, endsPerMm, picksPerMm);
          const { ax, ay, bx, by } = shape.lattice;
          const endStep = (ends * box.lattice.bx) / box.width;
          expect([ax, ay, bx, by].every(Number.isInteger)).toBe(true);
          expect(Math.abs(endStep - Math.round(endStep))).toBeLessThan(1e-6);
          expect((ends + ay) % 2).toBe(0);
          expect((Math.round(endStep) + by) % 2).toBe(0);
          expect(Math.abs(ay * shape.mmPerCellY - box.lattice.ay)).toBeLessThan(1e-6);
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });
  // Johnson et al., A thread counting algorithm for art forensics (2009): the peak of the spectrum is the threads per length.
  it('the picks that show are those that were reported', () => {
    const made = makeSilk({ picks: 19, slubs: 0, unevenness: 4, shot: 0 }, 'straight', '51.2x51.2mm', 254);
    const picks = Math.round(Number(made.reports[0].value) * 5.12);
    const { shade } = paintSilk(made, 0, 0, 512, 512);
    const fft = new FFT(512);
    const power = new Float64Array(256);
    const [line, waves] = [new Float64Array(1024), new Float64Array(1024)];
    for (let x = 0; x < 512; x++) {
      for (let y = 0; y < 512; y++) line[2 * y] = shade[y * 512 + x];
      fft.transform(waves, line);
      for (let f = 20; f < 256; f++) power[f] += waves[2 * f] ** 2 + waves[2 * f + 1] ** 2;
    }
    expect(power.indexOf(Math.max(...power))).toBe(picks);
  });
});

describe('packing', () => {
  const shape = setUpLoom(boxOf({ layout: parseLayout('drop:1/2'), width: 40, height: 40 }), 4, 2).shape;
  const { width, height, mmPerCellY } = shape;
  it('leaves even picks where they are', () => {
    const moved = packPicks(new Float32Array(width * height).fill(1.3), shape);
    expect(Math.max(...moved.map(Math.abs))).toBeLessThan(1e-5);
  });
  it('a slub gets room, its neighbours yield, and twenty picks away nothing moves', () => {
    const thickness = new Float32Array(width * height).fill(1);
    for (let knot = 0; knot < width; knot++) thickness[40 * width + knot] = 4;
    const moved = packPicks(thickness, shape);
    const room = (pick: number) => mmPerCellY + moved[(pick + 1) * width + 7] - moved[pick * width + 7];
    expect(room(40) / mmPerCellY).toBeGreaterThan(3);
    expect(room(41) / mmPerCellY).toBeLessThan(0.85);
    expect(room(39)).toBeCloseTo(room(41), 5);
    expect(Math.abs(room(62) / mmPerCellY - 1)).toBeLessThan(0.02);
  });
  it('picks never cross, whatever the slubs', () => {
    const made = makeSilk({ unevenness: 60, slubs: 60, slubThickness: 8, picks: 40 }, 'brick:1/3', '30x30mm');
    const { moved, shape: cloth } = made.model;
    for (let pick = 0; pick + 1 < cloth.height; pick++) {
      for (let knot = 0; knot < cloth.width; knot++) {
        const k = pick * cloth.width + knot;
        expect(cloth.mmPerCellY + moved[k + cloth.width] - moved[k]).toBeGreaterThan(0);
      }
    }
  });
  it('a slub tapers to nothing at both tips, level', () => {
    for (const seed of ['a', 'b', 'c', 'd']) {
      const body = slubBody(randomStream(seed, 'slub'));
      expect(body(-1)).toBe(0);
      expect(body(1)).toBe(0);
      expect(body(0.999)).toBeLessThan(0.002);
      const shape = Array.from({ length: 201 }, (_, k) => body(k / 100 - 1));
      expect(Math.max(...shape)).toBeGreaterThan(0.5);
      expect(Math.max(...shape)).toBeLessThan(1.6);
    }
  });
  it('slubs are no lenses: nearly all have lumps and waists, and one half of most outweighs the other', () => {
    const shapes = Array.from({ length: 60 }, (_, n) => {
      const body = slubBody(randomStream(String(n), 'slub'));
      return Array.from({ length: 201 }, (_, k) => body(k / 100 - 1));
    });
    const lumps = (shape: number[]) => shape.filter((z, k) => k > 0 && z > shape[k - 1] && z >= shape[k + 1]);
    expect(shapes.filter((shape) => lumps(shape).length >= 2).length).toBeGreaterThan(50);
    const heavier = (shape: number[]) => {
      const [left, right] = [meanOf(shape.slice(0, 100)), meanOf(shape.slice(101))];
      return Math.max(left, right) / Math.min(left, right);
    };
    expect(shapes.filter((shape) => heavier(shape) > 1.2).length).toBeGreaterThan(35);
  });
});

describe('light', () => {
  it('the tables are running integrals that come back to 0 over two ribs', () => {
    const table = lightRibs({ from: 250, relief: 0.6, gleam: 0.3 });
    for (let n = 0; n < 3; n++) {
      const last = table[3 * (TABLE_STEPS - 1) + n];
      const before = table[3 * (TABLE_STEPS - 2) + n];
      expect(Math.abs(last)).toBeLessThan(2 * Math.abs(last - before) + 1e-9);
    }
    // Over and under cancel over two ribs, not over one; the mean of 1 - u^2 is 2/3.
    expect(table[3 * RIB_STEPS + 2] - table[2]).toBeCloseTo(2 / 3, 3);
  });
  it('falls on the flank that faces it', () => {
    const flanks = (light: number) => {
      const made = makeSilk(
        { light, slubs: 0, unevenness: 0, bars: 0, filaments: 0, lustre: 0, sheen: 0, grain: 0 },
        'straight',
        '20x20mm',
        1200,
      );
      const { height } = made.grid;
      const picks = made.model.shape.height;
      const { shade } = paintSilk(made, 0, 0, 40, height);
      const sums = [0, 0];
      for (let k = 0; k < shade.length; k++) {
        const place = ((Math.floor(k / 40) + 0.5) * picks) / height;
        sums[Math.floor(2 * (place % 1))] += shade[k];
      }
      return sums[0] / sums[1];
    };
    expect(flanks(270)).toBeGreaterThan(1.1);
    expect(flanks(90)).toBeLessThan(0.9);
    expect(Math.abs(flanks(180) - 1)).toBeLessThan(0.02);
  });
  it('of the whole cloth is 0.92 at relief 1, so that the artwork stays readable', () => {
    const made = makeSilk({}, 'straight', '80x80mm', 150);
    const { shade } = paintSilk(made, 0, 0, made.grid.width, made.grid.height);
    expect(Math.abs(meanOf(shade) - 0.92)).toBeLessThan(0.03);
  });
});

describe('density', () => {
  it.each([
    [150, 2, 0.97],
    [75, 4, 0.9],
    [50, 6, 0.86],
    // Over seeds 0.77 to 0.86: so few pixels are left of a tile that a slub more or less counts.
    [25, 12, 0.8],
  ])('%i dpi is what 300 dpi looks like from %i times as far', (dpi, factor, likeness) => {
    const near = makeSilk({}, 'straight', '50.8x50.8mm', 300);
    const far = makeSilk({}, 'straight', '50.8x50.8mm', dpi);
    const wanted = boxFiltered(paintSilk(near, 0, 0, 600, 600).shade, 600, factor);
    const got = paintSilk(far, 0, 0, 600 / factor, 600 / factor).shade;
    expect(Math.abs(meanOf(got) - meanOf(wanted))).toBeLessThan(0.006);
    expect(correlation(got, wanted)).toBeGreaterThan(likeness);
  });
});

describe('parameters', () => {
  const extremes = Object.fromEntries(
    Object.entries(silk.parameters).map(([name, parameter]) => {
      if (parameter.kind !== 'number') return [name, fc.constantFrom('#000000', '#ffffff', '#3377aa')];
      const { min, max, default: usual } = parameter as NumberParameter;
      return [name, fc.constantFrom(min, max, usual, (min + max) / 2)];
    }),
  );
  it('anywhere in range give finite planes in range', () => {
    fc.assert(
      fc.property(
        fc.record(extremes),
        fc.constantFrom('straight', 'drop:1/3', 'brick:1/2'),
        fc.constantFrom(300, 60),
        (parameters, layout, dpi) => {
          const made = makeSilk(parameters, layout, '24x18mm', dpi);
          const { shade, tint } = paintSilk(made, -5, -5, 40, 40);
          expect(shade.every((value) => value >= 0 && value < 3)).toBe(true);
          expect(tint.every((value) => value >= 0 && value <= 1)).toBe(true);
        },
      ),
      { seed: 5, numRuns: 60 },
    );
  });
  it('twice the same is the same to the bit', () => {
    const [a, b] = [makeSilk({}, 'straight', '20x20mm'), makeSilk({}, 'straight', '20x20mm')];
    expect(paintSilk(a, 3, 4, 50, 50).shade).toEqual(paintSilk(b, 3, 4, 50, 50).shade);
  });
  it('a cloth of one tone needs no tint', () => {
    const values = (shot: number) => ({ shot }) as never;
    expect(silk.planesFor?.(values(0))).toEqual(['shade']);
    expect(silk.planesFor?.(values(10))).toEqual(['shade', 'tint']);
  });
});
