import { boxOf, type FieldShape, fieldShape, fractalNoise, parseLayout, randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { growFronts } from './fronts.ts';

const box = boxOf({ layout: parseLayout('drop:1/2'), width: 120, height: 120 });
const shape: FieldShape = fieldShape(box, 0.5);
const sheet = fractalNoise(
  box.lattice,
  { along: 9, across: 9 },
  { octaves: 3, gain: 0.62 },
  randomStream('test', 'sheet'),
);
const drop = { x: [57.3], y: [61.8], start: [0], strength: [0.7], reach: 40, count: 1 };
const grow = (roughness: number) => growFronts(shape, drop, sheet, roughness, 8);

/** Radius, mm, of the disk as large as what the front has reached when it had come so far. */
function radiusAt(travelled: Float32Array, strength: Float32Array, far: number): number {
  let cells = 0;
  for (let k = 0; k < travelled.length; k++) if (strength[k] > 0 && travelled[k] <= far) cells++;
  return Math.sqrt((cells * shape.mmPerCellX * shape.mmPerCellY) / Math.PI);
}

describe('a front', () => {
  // Lucas 1918, Washburn 1921: length ~ time^(1/2). Prescribed here: T is the root of time, so time is T^2.
  // What is measured is that neither the march nor the roughness of the sheet bends the law.
  it.each([
    ['an even sheet', 0, 0.015],
    ['a rough sheet', 0.36, 0.05],
  ])('comes through %s as far as the root of time', (_, roughness, within) => {
    const { travelled, strength } = grow(roughness);
    const far = [6, 9, 13.5, 20.25, 30.4];
    const points = far.map((t) => [Math.log(t * t), Math.log(radiusAt(travelled, strength, t))]);
    const [mx, my] = [0, 1].map((n) => points.reduce((sum, point) => sum + point[n], 0) / points.length);
    const slope =
      points.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0) /
      points.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
    expect(Math.abs(slope - 0.5)).toBeLessThan(within);
    expect(Math.abs(radiusAt(travelled, strength, 30.4) / 30.4 - 1)).toBeLessThan(2.5 * within);
  });

  it('is ragged where the sheet is rough, and round where it is even', () => {
    const raggedness = (roughness: number) => {
      const { level } = grow(roughness);
      const radii: number[] = [];
      for (let k = 0; k < level.values.length; k++) {
        if (Math.abs(level.values[k]) > 0.3) continue;
        const x = ((k % shape.width) + 0.5) * shape.mmPerCellX - drop.x[0];
        const y = (Math.floor(k / shape.width) + 0.5) * shape.mmPerCellY - drop.y[0];
        radii.push(Math.hypot(x, y));
      }
      return (Math.max(...radii) - Math.min(...radii)) / 40;
    };
    expect(raggedness(0)).toBeLessThan(0.05);
    expect(raggedness(0.36)).toBeGreaterThan(0.15);
  });

  it('leaves no mark where no water was let in', () => {
    const none = growFronts(
      shape,
      { ...drop, x: [], y: [], start: [], strength: [], count: 0 },
      sheet,
      0.3,
      8,
    );
    expect(none.level.values.every((value) => value === 8)).toBe(true);
    expect(none.strength.every((value) => value === 0)).toBe(true);
  });
});
