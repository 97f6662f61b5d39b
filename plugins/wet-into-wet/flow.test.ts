import {
  boxOf,
  cellIndex,
  diffuseLines,
  type FieldShape,
  fieldShape,
  linesAlong,
  openLineStore,
  parseLayout,
} from 'tenter';
import { describe, expect, it } from 'vitest';
import { meanOf } from '../testing/measure.ts';
import { type FlowSpec, type Push, runFlow } from './flow.ts';

const shapeOf = (layout: string, width: number, height: number, mm = 1): FieldShape =>
  fieldShape(boxOf({ layout: parseLayout(layout), width, height }), mm);

/** Numbers that look random, 0..1, by a cell's place. */
function mixed(shape: FieldShape, salt: number, di = 0, dj = 0): Float64Array {
  const values = new Float64Array(shape.width * shape.height);
  for (let j = 0, k = 0; j < shape.height; j++)
    for (let i = 0; i < shape.width; i++, k++)
      values[cellIndex(shape, i + di, j + dj)] =
        Math.abs(Math.sin(k * 12.9898 + salt * 78.233) * 43758.5453) % 1;
  return values;
}

/** A restless sheet with a push across it, the whole moved by (di, dj) cells. */
function restless(layout: string, di = 0, dj = 0): FlowSpec {
  const shape = shapeOf(layout, 30, 30);
  const push: Push = {
    level: Float32Array.from(mixed(shape, 5, di, dj), (value) => 12 * value - 10),
    reach: 10,
    grip: Float32Array.from(mixed(shape, 6, di, dj), (value) => 0.6 * value),
    trail: 5,
    water: 0.5,
  };
  return {
    shape,
    water: mixed(shape, 1, di, dj).map((value) => 0.3 + value),
    paint: mixed(shape, 2, di, dj).map((value) => 2 * value ** 4),
    second: mixed(shape, 3, di, dj).map((value) => (value > 0.9 ? 3 : 0)),
    ease: Float32Array.from(mixed(shape, 4, di, dj), (value) => Math.exp(value - 0.5)),
    pushes: [push],
    levelling: 40,
    spreading: 4,
    run: { x: 8, y: 21 },
    steps: 40,
    dried: 0.9,
    shield: 2,
  };
}

describe.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])('a sheet over %s', (layout) => {
  it('keeps all of both paints, and nowhere less than none', () => {
    const spec = restless(layout);
    const before = [meanOf(spec.paint), meanOf(spec.second!)];
    const start = spec.paint.slice();
    const { paint, second } = runFlow(spec);
    expect(Math.abs(meanOf(paint) / before[0] - 1)).toBeLessThan(1e-9);
    expect(Math.abs(meanOf(second!) / before[1] - 1)).toBeLessThan(1e-9);
    expect(Math.min(...paint, ...second!)).toBeGreaterThanOrEqual(0);
    expect(paint.some((value, k) => Math.abs(value - start[k]) > 0.2)).toBe(true);
  });

  it('moved by whole cells is the same sheet moved', () => {
    const home = runFlow(restless(layout)).paint;
    const spec = restless(layout, 11, -7);
    const moved = runFlow(spec).paint;
    for (let j = 0; j < 30; j++)
      for (let i = 0; i < 30; i++)
        expect(moved[cellIndex(spec.shape, i + 11, j - 7)]).toBeCloseTo(home[i + 30 * j], 9);
  });
});

/** A drop of water with paint, 20 mm across, on a sheet that takes none. */
function drop(shield: number): { rim: number; middle: number } {
  const shape = shapeOf('straight', 32, 32, 0.5);
  const cells = shape.width * shape.height;
  const radius = (k: number) => Math.hypot((k % 64) - 31.5, Math.floor(k / 64) - 31.5) / 2;
  const water = Float64Array.from({ length: cells }, (_, k) => (radius(k) < 10 ? 1 : 0));
  const { paint } = runFlow({
    shape,
    water,
    paint: water.slice(),
    ease: Float32Array.from(water),
    pushes: [],
    levelling: 400,
    spreading: 0,
    run: { x: 0, y: 0 },
    steps: 80,
    dried: 0.9,
    shield,
  });
  const ring = (from: number, to: number) =>
    meanOf(paint.filter((_, k) => radius(k) >= from && radius(k) < to));
  return { rim: ring(8.5, 9.5), middle: ring(0, 5) };
}

describe('a drying drop', () => {
  // Deegan and others 1997: a drop that dries faster at its pinned rim leaves a ring there.
  it('leaves more paint at its rim than within, where the rim dries faster', () => {
    const { rim, middle } = drop(2);
    expect(rim / middle).toBeGreaterThan(1.25);
  });
  it('and none where it dries alike all over', () => {
    const { rim, middle } = drop(0);
    expect(Math.abs(rim / middle - 1)).toBeLessThan(0.01);
  });
});

describe('a damp front fed from a reservoir', () => {
  // Lucas 1918, Washburn 1921: length ~ time^(1/2). Here of h_t = (h^2 h_x)_x behind a constant supply.
  it('comes as far as the square root of time', () => {
    const n = 400;
    const lines = linesAlong(shapeOf('straight', n, 1), 'x');
    const store = openLineStore(n);
    const water = new Float64Array(n);
    const conductance = new Float64Array(n);
    const reached: [time: number, length: number][] = [];
    for (let step = 1; step <= 4096; step++) {
      for (let k = 190; k <= 210; k++) water[k] = 1;
      for (let k = 0; k < n; k++) {
        const h = (water[k] + water[(k + 1) % n]) / 2;
        conductance[k] = 2 * h * h;
      }
      diffuseLines(lines, water, conductance, store);
      if (step < 256 || (step & (step - 1)) !== 0) continue;
      let k = 210;
      while (water[k + 1] > 0.3) k++;
      reached.push([step, k + (water[k] - 0.3) / (water[k] - water[k + 1]) - 210]);
    }
    const [first, last] = [reached[0], reached[reached.length - 1]];
    const exponent = Math.log(last[1] / first[1]) / Math.log(last[0] / first[0]);
    expect(exponent).toBeGreaterThan(0.48);
    expect(exponent).toBeLessThan(0.52);
  });
});
