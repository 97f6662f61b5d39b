import { boxOf, gridOfPixels, neutralLayer, parseLayout, type ValuesOf } from 'tenter';
import { openSetting } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import wood from './index.ts';
import type { PARAMETERS } from './parameters.ts';

type Given = Partial<ValuesOf<typeof PARAMETERS>>;

function prepare(layout: string, width: number, height: number, parameters: Given) {
  const box = boxOf({ layout: parseLayout(layout), width, height });
  const { setting, reports } = openSetting(wood, { box, seed: 'grove', parameters });
  return { model: wood.prepare(setting as never), reports };
}

type Model = ReturnType<typeof prepare>['model'];

function paint(
  model: Model,
  x: number,
  y: number,
  width: number,
  height: number,
  mmPerPixel: [number, number],
) {
  const layer = neutralLayer(wood.planes, width, height);
  const band = { x, y, width, height, mmPerPixelX: mmPerPixel[0], mmPerPixelY: mmPerPixel[1] };
  wood.paint(model as never, band, layer as never);
  return layer.tint!;
}

function bytes(tint: Float32Array): Buffer {
  return Buffer.from(Uint8Array.from(tint, (value) => Math.round(value * 255)));
}

function differing(a: Buffer, b: Buffer): number {
  let count = 0;
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) count++;
  return count / a.length;
}

const KINDS: Given[] = [
  { construction: 'boards', knots: 1 },
  { construction: 'boards', species: 'pine', direction: 'across' },
  { construction: 'leaves', species: 'walnut' },
  { construction: 'veneer', species: 'ash' },
  { construction: 'boards', cut: 'quarter' },
  { construction: 'painted' },
];
const LAYOUTS: [string, number, number][] = [
  ['straight', 260, 200],
  ['drop:1/2', 260, 200],
  ['drop:1/3', 251, 201],
  ['drop:2/5', 240, 205],
  ['brick:1/2', 250, 203],
  ['brick:2/3', 246, 199],
];

describe.each(KINDS)('wood of %j', (parameters) => {
  it.each(LAYOUTS)('is the same at every lattice translate over %s', (layout, columns, rows) => {
    const repeat = { layout: parseLayout(layout), width: 96, height: (96 * rows) / columns };
    const grid = gridOfPixels(repeat, columns, rows);
    const { model } = prepare(layout, repeat.width, repeat.height, parameters);
    const step: [number, number] = [grid.mmPerPixelX, grid.mmPerPixelY];
    const home = bytes(paint(model, -37, -53, 90, 70, step));
    const { ax, ay, bx, by } = grid.lattice;
    for (const [m, n] of [
      [1, 0],
      [0, 1],
      [-1, 2],
      [2, -1],
    ]) {
      const moved = bytes(paint(model, -37 + m * ax + n * bx, -53 + m * ay + n * by, 90, 70, step));
      expect(differing(home, moved)).toBe(0);
    }
    const astray = bytes(paint(model, -37 + ax + 11, -53 + ay + 17, 90, 70, step));
    expect(differing(home, astray)).toBeGreaterThan(0.3);
  });
  it('gives the same bits however the bands are cut', () => {
    const { model } = prepare('drop:1/2', 96, 74, parameters);
    const step: [number, number] = [0.3, 0.3];
    const whole = paint(model, -40, -20, 130, 60, step);
    for (const [x, y, width, height] of [
      [0, 0, 130, 7],
      [13, 7, 50, 31],
      [101, 40, 29, 20],
    ]) {
      const part = paint(model, x - 40, y - 20, width, height, step);
      for (let row = 0; row < height; row++) {
        const from = ((y + row) * 130 + x) * 4;
        expect(part.subarray(row * width * 4, (row + 1) * width * 4)).toEqual(
          whole.subarray(from, from + width * 4),
        );
      }
    }
  });
});

describe('wood', () => {
  it('keeps its mean colour from afar: 75 dpi is what 300 dpi looks like', () => {
    const { model } = prepare('straight', 100, 100, {});
    const near = paint(model, 0, 0, 800, 400, [25.4 / 300, 25.4 / 300]);
    const far = paint(model, 0, 0, 200, 100, [25.4 / 75, 25.4 / 75]);
    for (let channel = 0; channel < 3; channel++) {
      const mean = (tint: Float32Array) => {
        let sum = 0;
        for (let at = channel; at < tint.length; at += 4) sum += tint[at];
        return (sum * 4) / tint.length;
      };
      expect(Math.abs(mean(near) - mean(far)) * 255).toBeLessThan(1.5);
    }
  });
  it('closes and is finite on a tile smaller than a board, for every body', () => {
    for (const body of ['full', 'grain', 'relief'] as const) {
      const { model, reports } = prepare('brick:1/3', 30, 20, { body });
      expect(reports.length).toBeGreaterThan(0);
      expect(paint(model, -5, -5, 60, 40, [0.5, 0.5]).every((value) => value >= 0 && value <= 1)).toBe(true);
    }
  });
});
