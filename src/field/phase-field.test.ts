import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { cellIndex, type FieldShape, fieldShape } from './periodic.ts';
import { type Crystal, crystalStep, growCrystal } from './phase-field.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/2'];

/** Kobayashi's own numbers, 1993. */
const PUBLISHED: Crystal = {
  interface: 0.01,
  relaxation: 0.0003,
  anisotropy: 0.05,
  folds: 4,
  angle: 0,
  latentHeat: 1.6,
  spread: 1,
  drive: 0.9,
  steepness: 10,
};

const shapeFor = (layout: string, width: number, height: number, cell = 0.03) =>
  fieldShape(boxOf({ layout: parseLayout(layout), width, height }), cell);

/** A melt with a round seed, mm. */
function seeded(shape: FieldShape, x: number, y: number, radius: number) {
  const count = shape.width * shape.height;
  const solid = new Float32Array(count);
  const reach = Math.ceil(radius / shape.mmPerCellX);
  const [ci, cj] = [Math.floor(x / shape.mmPerCellX), Math.floor(y / shape.mmPerCellY)];
  for (let j = -reach; j <= reach; j++)
    for (let i = -reach; i <= reach; i++)
      if (i * i + j * j < reach * reach) solid[cellIndex(shape, ci + i, cj + j)] = 1;
  return { solid, heat: new Float32Array(count) };
}

const sumOf = (values: Float32Array) => values.reduce((sum, value) => sum + value, 0);

/** How far the crystal reaches from the middle along a direction, mm. */
function reachOf(shape: FieldShape, solid: Float32Array, degrees: number): number {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const half = (shape.width * shape.mmPerCellX) / 2;
  for (let reach = half; reach > 0; reach -= 0.01) {
    const i = Math.floor((half + reach * c) / shape.mmPerCellX);
    const j = Math.floor((half + reach * s) / shape.mmPerCellY);
    if (solid[cellIndex(shape, i, j)] > 0.5) return reach;
  }
  return 0;
}

describe('a crystal', () => {
  // p = (1 - tanh((x - c t) / (2 sqrt(2) eps))) / 2 solves it with c = sqrt(2) eps m / tau, where m is even.
  it.each([0.1, 0.2, 0.3])('has a front that goes at sqrt(2) m eps / tau for m = %d', (m) => {
    const shape = shapeFor('straight', 3, 0.02, 0.005);
    const even = { ...PUBLISHED, anisotropy: 0, latentHeat: 0, drive: m * Math.PI, steepness: Math.tan(1) };
    const solid = new Float32Array(shape.width * shape.height);
    for (let k = 0; k < solid.length; k++) {
      const x = Math.abs((k % shape.width) + 0.5 - shape.width / 2) * shape.mmPerCellX;
      solid[k] = (1 - Math.tanh((x - 0.2) / (2 * Math.SQRT2 * 0.01))) / 2;
    }
    const state = { solid, heat: new Float32Array(solid.length) };
    const widthOf = () => (sumOf(solid) / shape.height) * shape.mmPerCellX;
    const before = widthOf();
    // Both fronts of a bar go outward.
    const expected = (Math.SQRT2 * m * 0.01) / 0.0003;
    const duration = 0.5 / expected;
    growCrystal(shape, state, even, { duration });
    expect(Math.abs((widthOf() - before) / (2 * duration) / expected - 1)).toBeLessThan(0.02);
  });

  it.each(LAYOUTS)('keeps the sum of heat - K solid over %s', (layout) => {
    const shape = shapeFor(layout, 3, 3);
    const state = seeded(shape, 0.2, 0.1, 0.2);
    const surplus = () => sumOf(state.heat) - PUBLISHED.latentHeat * sumOf(state.solid);
    const [before, frozen] = [surplus(), sumOf(state.solid)];
    growCrystal(shape, state, { ...PUBLISHED, trembling: 0.01, seed: 3 }, { duration: 0.06 });
    expect(sumOf(state.solid)).toBeGreaterThan(4 * frozen);
    expect(Math.abs(surplus() - before)).toBeLessThan(1e-3 * sumOf(state.heat));
  });

  it.each(LAYOUTS)('moves with its domain over %s', (layout) => {
    const shape = shapeFor(layout, 3, 2.4);
    const here = seeded(shape, 0.9, 0.8, 0.15);
    const moved = (values: Float32Array) => {
      const to = values.slice();
      for (let k = 0; k < values.length; k++)
        to[cellIndex(shape, (k % shape.width) + 61, Math.floor(k / shape.width) + 47)] = values[k];
      return to;
    };
    const there = { solid: moved(here.solid), heat: moved(here.heat) };
    for (const state of [here, there]) growCrystal(shape, state, PUBLISHED, { duration: 0.02 });
    expect(there).toEqual({ solid: moved(here.solid), heat: moved(here.heat) });
  });

  it('grows arms along its folds, turned as its angle is', () => {
    const shape = shapeFor('straight', 5.4, 5.4);
    const grown = (folds: number, angle: number) => {
      const state = seeded(shape, 2.7, 2.7, 0.15);
      growCrystal(shape, state, { ...PUBLISHED, folds, angle }, { duration: 0.16 });
      return (degrees: number) => reachOf(shape, state.solid, degrees);
    };
    const four = grown(4, 0);
    expect(four(0)).toBeGreaterThan(1.3 * four(45));
    expect(four(90)).toBeCloseTo(four(0), 1);
    const turned = grown(4, Math.PI / 4);
    expect(turned(45)).toBeGreaterThan(1.3 * turned(0));
    expect(turned(45) / four(0)).toBeGreaterThan(0.85);
    expect(turned(45) / four(0)).toBeLessThan(1.15);
    const six = grown(6, 0);
    expect(six(60)).toBeGreaterThan(1.2 * six(90));
    expect(six(60) / six(0)).toBeGreaterThan(0.85);
    expect(six(60) / six(0)).toBeLessThan(1.15);
  });
});

describe('its time step', () => {
  const shape = shapeFor('straight', 3, 3);
  it("takes Kobayashi's own on his own grid", () => {
    expect(crystalStep(shape, PUBLISHED)).toBeGreaterThan(2e-4);
    const state = seeded(shape, 1, 1, 0.2);
    expect(growCrystal(shape, state, PUBLISHED, { duration: 0.004, timeStep: 2e-4 })).toBe(20);
  });
  it('is refused by name where it is too long', () => {
    const refused = () =>
      growCrystal(shape, seeded(shape, 1, 1, 0.2), PUBLISHED, { duration: 0.01, timeStep: 1e-3 });
    const named = Number(/at most ([\d.e-]+)/.exec(String(errorOf(refused)))?.[1]);
    expect(named).toBeLessThanOrEqual(crystalStep(shape, PUBLISHED));
    expect(named).toBeGreaterThan(0.99 * crystalStep(shape, PUBLISHED));
    expect(() =>
      growCrystal(shape, seeded(shape, 1, 1, 0.2), PUBLISHED, { duration: 0.002, timeStep: named }),
    ).not.toThrow();
  });
  it('is called to account where values go astray, and says how far it has come', () => {
    const state = seeded(shape, 1, 1, 0.2);
    const called: number[] = [];
    growCrystal(shape, state, PUBLISHED, { duration: 0.01, progress: (done) => called.push(done) });
    expect(called.length).toBeGreaterThan(3);
    expect(called.at(-1)).toBe(1);
    state.heat[3] = Number.NaN;
    expect(() => growCrystal(shape, state, PUBLISHED, { duration: 0.01 })).toThrow('within 0..1');
  });
});

function errorOf(run: () => unknown): unknown {
  try {
    run();
  } catch (error) {
    return error;
  }
  return undefined;
}
