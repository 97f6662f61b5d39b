/** What the tests of effects share: an effect prepared for a repeat, its planes over any band, and the habits they are held to. */
import fc from 'fast-check';
import {
  type AnyEffect,
  type AnyLayer,
  type Grid,
  gridOfPixels,
  neutralLayer,
  type ParameterSet,
  parseLayout,
  type Report,
} from 'tenter';
import { openSetting } from 'tenter/render';
import { expect } from 'vitest';

export interface Tried {
  readonly effect: AnyEffect;
  readonly model: unknown;
  readonly grid: Grid;
  readonly reports: readonly Report[];
  readonly planes: AnyEffect['planes'];
}

/** @param dpi About: the tile is `columns` x `rows` pixels, whatever its size in mm comes to. */
export function tryEffect(
  effect: AnyEffect,
  parameters: Readonly<Record<string, unknown>>,
  layout: string,
  [columns, rows]: readonly [number, number],
  dpi = 300,
  seed = 'try',
): Tried {
  const mm = 25.4 / dpi;
  const repeat = { layout: parseLayout(layout), width: columns * mm, height: rows * mm };
  const grid = gridOfPixels(repeat, columns, rows);
  const { setting, reports } = openSetting(effect, { box: grid.box, seed, parameters });
  const planes = effect.planesFor?.(setting.parameters) ?? effect.planes;
  return { effect, model: effect.prepare(setting), grid, reports, planes };
}

/** The planes of a rectangle of pixels. */
export function paintTried(
  { effect, model, grid, planes }: Tried,
  x: number,
  y: number,
  width: number,
  height: number,
  scale = 1,
): AnyLayer {
  const layer = neutralLayer(planes, width, height);
  const band = {
    x,
    y,
    width,
    height,
    mmPerPixelX: grid.mmPerPixelX * scale,
    mmPerPixelY: grid.mmPerPixelY * scale,
  };
  effect.paint(model, band, layer as never);
  return layer;
}

/** All numbers of a layer in one list, to be compared. */
export function numbersOf(layer: AnyLayer): Float32Array[] {
  return [layer.load, layer.tint, layer.shade, layer.shift].filter((plane) => plane !== undefined);
}

const TRANSLATES = [
  [1, 0],
  [0, 1],
  [-2, 3],
  [3, -2],
] as const;

/** Expects the same bits at every translate of the lattice, and others astray. */
export function expectCloses(tried: Tried, width = 61, height = 47): void {
  const { ax, ay, bx, by } = tried.grid.lattice;
  const home = numbersOf(paintTried(tried, -37, -23, width, height));
  for (const [m, n] of TRANSLATES) {
    const there = paintTried(tried, -37 + m * ax + n * bx, -23 + m * ay + n * by, width, height);
    expect(numbersOf(there)).toEqual(home);
  }
  const astray = numbersOf(paintTried(tried, -37 + ax + 5, -23 + ay + 7, width, height));
  const differ = astray.flatMap((plane, p) => [...plane].filter((value, k) => value !== home[p][k]));
  expect(differ.length).toBeGreaterThan(0.1 * width * height);
}

/**
 * Expects no seam: the step from pixel to pixel over an edge of the box is not larger than the largest
 * found elsewhere. An effect that brings its pixels home has equal copies in any case; only this tells
 * whether they fit together.
 */
export function expectSeamless(tried: Tried): void {
  const { width, height } = tried.grid;
  const size = { width: width + 40, height: height + 40 };
  for (const plane of numbersOf(paintTried(tried, -20, -20, size.width, size.height))) {
    for (const [edge, side] of [
      [width, 'across'],
      [height, 'down'],
    ] as const) {
      const steps = stepsOf(plane, size.width, size.height, side);
      const inside = steps.filter((_, k) => k > 0 && (k - 20) % edge !== 0);
      expect(Math.max(steps[20], steps[20 + edge])).toBeLessThan(1.1 * Math.max(...inside));
    }
  }
}

/** The mean step into each column (or row) of a plane from the one before it. */
function stepsOf(plane: Float32Array, width: number, height: number, side: 'across' | 'down'): Float64Array {
  const channels = plane.length / (width * height);
  const steps = new Float64Array(side === 'across' ? width : height);
  for (let y = side === 'down' ? 1 : 0; y < height; y++) {
    for (let x = side === 'across' ? 1 : 0; x < width; x++) {
      for (let c = 0; c < channels; c++) {
        const here = (y * width + x) * channels + c;
        const before = here - (side === 'across' ? channels : width * channels);
        steps[side === 'across' ? x : y] += Math.abs(plane[here] - plane[before]);
      }
    }
  }
  return steps.map((sum) => sum / (side === 'across' ? height : width));
}

/** Expects the same bits however a rectangle is cut into bands. */
export function expectAnyCut(tried: Tried, width = 90, height = 40): void {
  const whole = paintTried(tried, -11, -7, width, height);
  for (const [x, y, w, h] of [
    [0, 0, width, 1],
    [0, height - 1, width, 1],
    [17, 5, 1, 25],
    [31, 11, 29, 8],
    ...Array.from({ length: width }, (_, k) => [k, 0, 1, height]),
  ]) {
    const part = numbersOf(paintTried(tried, -11 + x, -7 + y, w, h));
    numbersOf(whole).forEach((plane, p) => {
      const channels = plane.length / (width * height);
      for (let row = 0; row < h; row++) {
        const from = ((y + row) * width + x) * channels;
        expect(part[p].subarray(row * w * channels, (row + 1) * w * channels)).toEqual(
          plane.subarray(from, from + w * channels),
        );
      }
    });
  }
}

/** Any values of a parameter set; each number at its ends as often as between them. */
export function anyValues(parameters: ParameterSet): fc.Arbitrary<Record<string, unknown>> {
  return fc.record(
    Object.fromEntries(
      Object.entries(parameters).map(([name, parameter]) => {
        if (parameter.kind === 'choice') return [name, fc.constantFrom(...parameter.options)];
        if (parameter.kind === 'switch') return [name, fc.boolean()];
        if (parameter.kind === 'colour') return [name, fc.constantFrom('#000000', '#ffffff', '#7a1f2b')];
        const { min, max, whole } = parameter;
        const between = whole ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true });
        return [name, fc.oneof(fc.constantFrom(min, max), between)];
      }),
    ),
  );
}

/** The means of squares of `factor` x `factor` pixels of a plane of one channel. */
export function boxFiltered(plane: Float32Array, width: number, factor: number): Float32Array {
  const columns = Math.floor(width / factor);
  const rows = Math.floor(plane.length / width / factor);
  const means = new Float32Array(columns * rows);
  for (let y = 0; y < rows * factor; y++) {
    for (let x = 0; x < columns * factor; x++) {
      means[Math.floor(y / factor) * columns + Math.floor(x / factor)] += plane[y * width + x] / factor ** 2;
    }
  }
  return means;
}

export function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum / values.length;
}

/** Pearson's correlation of two lists. */
export function correlation(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const [p, q] = [meanOf(a), meanOf(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k++) {
    ab += (a[k] - p) * (b[k] - q);
    aa += (a[k] - p) ** 2;
    bb += (b[k] - q) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}
