import { randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { bandOf, bareModel, painted, prepared } from '../testing/wood-grain.ts';
import wood from './index.ts';
import { nodeAt } from './nodes.ts';
import { cover, densityAt } from './pores.ts';
import { RAY, RayCache, rayLayer } from './rays.ts';
import { ringTable } from './rings.ts';
import { fibreSheet } from './sheet.ts';
import { SPECIES } from './species.ts';

const DETAIL = {
  lattice: { ax: 60, ay: 0, bx: 0, by: 90 },
  stepU: 1,
  stepV: 1,
  rayTurns: [120, 0] as const,
};

describe('fibres', () => {
  const habit = {
    streak: [
      { width: 0.12, length: 5, share: 0.5 },
      { width: 1, length: 30, share: 0.5 },
    ],
    jitter: [{ width: 0.4, length: 12, share: 1 }],
  };
  const sheet = fibreSheet(DETAIL, habit, randomStream('fibres', 'test'));

  it('have about mean 0 and variance 1, and longer than they are wide', () => {
    const [{ cells, streak, cellU, cellV }] = sheet.levels;
    const mean = streak.reduce((sum, value) => sum + value, 0) / streak.length;
    const power = streak.reduce((sum, value) => sum + value * value, 0) / streak.length;
    expect(Math.abs(mean)).toBeLessThan(0.1);
    expect(power).toBeGreaterThan(0.8);
    expect(power).toBeLessThan(1.2);
    const alike = (step: number) => {
      let sum = 0;
      for (let k = 0; k + step < streak.length; k++) sum += streak[k] * streak[k + step];
      return sum / (streak.length - step) / power;
    };
    const [across, along] = [Math.round(1.5 / cellU), Math.round(1.5 / cellV)];
    expect(alike(along * cells.across)).toBeGreaterThan(alike(across) + 0.3);
  });

  it('are the same on every level, in wider cells', () => {
    const [fine, coarse] = sheet.levels;
    expect(coarse.cells.across * 2).toBe(fine.cells.across);
    expect(coarse.streak[7]).toBeCloseTo((fine.streak[14] + fine.streak[15]) / 2, 6);
    // Cells 14 and 15 meet at (15 + lead) cells: there the middle of coarse cell 7 must lie.
    expect((7 + coarse.lead) * coarse.cellU).toBeCloseTo((14.5 + fine.lead) * fine.cellU, 9);
  });
});

describe('fibres on large pixels', () => {
  it('fade as a box filter fades them', () => {
    const even = { profile: () => 0.5, latewood: 0.5, latewoodSpread: 0, ringSpread: 0, drift: 0, spells: 0 };
    const table = ringTable(even, 20, 2, 0, 40, { ...randomStream('a', 'b'), next: () => 1 });
    const bare = bareModel(72, 60, () => 20, table);
    const model = { ...bare, look: { ...bare.look, fibre: 0.2 } };
    /** Deviation of the red of a row, each value the mean of `times` pixels. */
    const deviation = (mm: number, times: number) => {
      const count = Math.floor(72 / mm / times);
      const { tint } = painted(model, bandOf(0, 0, count * times, 60, mm));
      const values: number[] = [];
      for (let k = 0; k < count * 60; k++) {
        let sum = 0;
        for (let n = 0; n < times; n++) sum += tint[(k * times + n) * 4];
        values.push(sum / times);
      }
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
    };
    for (const mm of [0.24, 0.36, 0.48]) {
      const ratio = deviation(mm, 1) / deviation(mm / 6, 6);
      expect(ratio).toBeGreaterThan(0.9);
      expect(ratio).toBeLessThan(1.1);
    }
    expect(deviation(0.08, 1)).toBeGreaterThan(1.08 * deviation(0.48, 1));
  });
});

describe('pores', () => {
  it('cover as much as they are wide, wherever the pixels fall', () => {
    for (const [from, to] of [
      [3.2, 3.7],
      [2.9, 6.4],
      [0, 1],
    ]) {
      const row = new Float32Array(10);
      cover(row, 0, 10, from, to, 1);
      expect(row.reduce((sum, value) => sum + value, 0)).toBeCloseTo(to - from, 5);
    }
  });

  // Ring-porous woods have their wide pores in the first part of the ring (any wood handbook).
  it('of oak and ash crowd into the start of the ring', () => {
    for (const name of ['oak', 'ash'] as const) {
      const [wide] = SPECIES[name].pores;
      expect(densityAt(wide, 0.1)).toBeGreaterThan(10 * densityAt(wide, 0.6));
    }
    expect(SPECIES.pine.pores[0].early).toBeLessThan(0.1);
  });

  it('darken as much as they are asked to, and none at 0', () => {
    const meanOf = (pores: number) => {
      const { model } = prepared('straight', 80, 80, { pores, joint: 0, relief: 0 });
      const { tint } = painted(model, bandOf(0, 0, 400, 400, 0.2));
      let sum = 0;
      for (let k = 0; k < tint.length; k += 4) sum += tint[k];
      return (sum * 4) / tint.length;
    };
    const [none, some, many] = [meanOf(0), meanOf(1), meanOf(2)];
    expect(none - some).toBeGreaterThan(0.004);
    expect(some - many).toBeGreaterThan(0.7 * (none - some));
  });
});

describe('rays', () => {
  it('come back after their turn and after the length of the lattice', () => {
    const cache = new RayCache(rayLayer(DETAIL, randomStream('rays', 'test')));
    const at = (column: number, v: number) => cache.values[cache.find(column, v, 2) + RAY.strength];
    for (const [column, v] of [
      [3, 10.5],
      [77, 61],
      [119, 0.2],
    ]) {
      const here = at(column, v);
      expect(at(column + 120, v)).toBe(here);
      expect(at(column, v - 90)).toBe(here);
      expect(at(column + 1, v)).not.toBe(here);
    }
  });

  it('show on quarter-sawn oak and not on ash', () => {
    expect(prepared('straight', 60, 60, { cut: 'quarter' }).model.rays).not.toBeNull();
    expect(prepared('straight', 60, 60, { cut: 'quarter', species: 'ash' }).model.rays).toBeNull();
    expect(prepared('straight', 60, 60, { cut: 'quarter', rays: 0 }).model.rays).toBeNull();
  });
});

describe('knots', () => {
  const { model } = prepared('straight', 200, 200, { species: 'pine', knots: 2, construction: 'veneer' });
  const [piece] = model.pieces;
  const inside = piece.knots.filter(({ u, v }) => u > 20 && u < 180 && v > 20 && v < 180);

  it('are as many as asked, copies at the edges aside', () => {
    const own = piece.knots.filter(({ u, v }) => u >= 0 && u < 200 && v >= 0 && v < 200);
    expect(own.length).toBe(8);
    expect(inside.length).toBeGreaterThan(2);
  });

  it('let the grain flow round them: beside a knot the ring of its middle parts', () => {
    const { radius } = model.nodes;
    const changes = inside.map(({ u, v, size }) => {
      const middle = nodeAt(radius, piece.grid, u, v);
      const beside = Math.abs(nodeAt(radius, piece.grid, u + size, v) - middle);
      const far = Math.abs(nodeAt(radius, piece.grid, u + 4 * size, v) - middle) / 4;
      return beside / Math.max(far, 0.05);
    });
    // Undisturbed, the radius changes as fast beside the middle as further off.
    expect(changes.filter((change) => change < 0.6).length).toBeGreaterThanOrEqual(changes.length * 0.6);
  });
});

describe('the model', () => {
  it('is plain data: a copy of it paints the same', () => {
    const { model } = prepared('drop:1/2', 80, 60, { knots: 2, species: 'pine' });
    const band = bandOf(-9, -5, 60, 50, 0.2);
    expect(painted(structuredClone(model), band)).toEqual(painted(model, band));
  });
});

describe('the planes', () => {
  it('are only those that the values need', () => {
    const base = { body: 'full', relief: 0.5 } as const;
    const planes = (values: object) => wood.planesFor?.({ ...base, ...values } as never);
    expect(planes({})).toEqual(['tint', 'shade']);
    expect(planes({ relief: 0 })).toEqual(['tint']);
    expect(planes({ body: 'grain', relief: 0 })).toEqual(['tint']);
    expect(planes({ body: 'relief' })).toEqual(['shade']);
  });

  it('leave the artwork its colours where only the grain is laid', () => {
    const { model } = prepared('straight', 80, 80, { body: 'grain' });
    const { tint } = painted(model, bandOf(0, 0, 300, 300, 0.2));
    const alphas = Array.from({ length: 90_000 }, (_, k) => tint[k * 4 + 3]).sort((a, b) => a - b);
    expect(alphas[9_000]).toBeLessThan(0.2);
    expect(alphas[88_000]).toBeGreaterThan(0.35);
    expect(alphas[89_999]).toBeLessThanOrEqual(1);
  });
});

describe('snapped figures', () => {
  it('are reported: boards fill the repeat', () => {
    const { figures } = prepared('straight', 320, 640, { boardWidth: 107, boardLength: 300 });
    expect(figures.get('board width')).toBeCloseTo(320 / 3, 9);
    expect(figures.get('boards across')).toBe(3);
    expect(figures.get('board length')).toBe(320);
  });

  it('suit a brick: whole columns to each offset', () => {
    const { figures } = prepared('brick:1/3', 320, 320, { boardWidth: 70 });
    expect(figures.get('boards across')! % 3).toBe(0);
    const turned = prepared('drop:1/4', 320, 320, { boardWidth: 70, direction: 'across' });
    expect(turned.figures.get('boards across')! % 4).toBe(0);
  });
});
