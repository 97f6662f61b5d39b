/** The habits that every effect is held to, and any values to try them with. */
import fc from 'fast-check';
import type { AnyLayer, NumberParameter, Parameter, ParameterSet } from 'tenter';
import { expect } from 'vitest';
import { type Made, paintTried } from './make.ts';

/** All numbers of a layer, plane by plane, to be compared. */
export function numbersOf(layer: AnyLayer): Float32Array[] {
  return [layer.load, layer.parting, layer.tint, layer.shade, layer.shift, layer.bleed, layer.relief].filter(
    (plane) => plane !== undefined,
  );
}

/** The plane that tells most of a texture. */
function plainOf({ relief, shade, load, tint }: AnyLayer): Float32Array {
  return (relief ?? shade ?? load ?? tint)!;
}

const TRANSLATES = [
  [1, 0],
  [0, 1],
  [-2, 3],
  [5, -4],
] as const;

/** Where the rectangle that is looked at begins: outside the box, at no round place. */
const LEFT = -37;
const TOP = -53;

/** Expects the same bits at every translate of the lattice, and others astray. */
export function expectCloses(made: Made, width = 61, height = 47): void {
  expectTranslates(made, width, height);
  expectAstray(made, 0.1, width, height);
}

/** Expects the same bits at every translate of the lattice. */
export function expectTranslates(made: Made, width = 61, height = 47): void {
  const { ax, ay, bx, by } = made.grid.lattice;
  const home = numbersOf(paintTried(made, LEFT, TOP, width, height));
  for (const [m, n] of TRANSLATES) {
    const there = paintTried(made, LEFT + m * ax + n * bx, TOP + m * ay + n * by, width, height);
    expect(numbersOf(there)).toEqual(home);
  }
}

/** Expects that more than a share of the light (or load, or tint) differs where the lattice is wrong by some pixels. */
export function expectAstray(made: Made, share: number, width = 61, height = 47): void {
  const { ax, ay } = made.grid.lattice;
  const home = plainOf(paintTried(made, LEFT, TOP, width, height));
  const wrong = plainOf(paintTried(made, LEFT + ax + 5, TOP + ay + 7, width, height));
  const different = wrong.filter((value, k) => Math.abs(value - home[k]) > 1e-5).length;
  expect(different / home.length).toBeGreaterThan(share);
}

/**
 * Expects no seam: the step from pixel to pixel over an edge of the box is not larger than the largest
 * found elsewhere. An effect that brings its pixels home has equal copies in any case; only this tells
 * whether they fit together.
 */
export function expectSeamless(made: Made): void {
  const { width, height } = made.grid;
  const size = { width: width + 40, height: height + 40 };
  for (const plane of numbersOf(paintTried(made, -20, -20, size.width, size.height))) {
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

/**
 * Expects that the light (or load, or tint) runs on across the edges of the box: a jump at an edge lies within the
 * spread of the jumps inside (rank of the seam).
 */
export function expectRunsOn(made: Made): void {
  const { width, height } = made.grid;
  const size = Math.max(width, height) + 40;
  const plane = plainOf(paintTried(made, -20, -20, size, size));
  for (const [edge, side] of [
    [width, 'across'],
    [height, 'down'],
  ] as const) {
    const steps = stepsOf(plane, size, size, side);
    const inside = steps.filter((_, k) => k > 0 && ![20, 20 + width, 20 + height].includes(k));
    expect(Math.max(steps[20], steps[20 + edge])).toBeLessThan(Math.max(...inside));
  }
}

/** Expects the same bits however a rectangle is cut into bands, each column of it by itself among others. */
export function expectAnyCut(made: Made, width = 90, height = 40): void {
  expectSameParts(made, width, height, [
    [0, 0, width, 1],
    [0, height - 1, width, 1],
    [17, 5, 1, 25],
    [31, 11, 29, 8],
    ...Array.from({ length: width }, (_, k) => [k, 0, 1, height]),
  ]);
}

/** Expects the same bits from parts of a rectangle, each as x, y, width and height, as from the whole of it. */
export function expectSameParts(
  made: Made,
  width: number,
  height: number,
  parts: readonly (readonly number[])[],
): void {
  const whole = numbersOf(paintTried(made, -11, -7, width, height));
  for (const [x, y, w, h] of parts) {
    const part = numbersOf(paintTried(made, -11 + x, -7 + y, w, h));
    whole.forEach((plane, p) => {
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
  const each = Object.entries(parameters).map(([name, parameter]) => [name, anyValue(parameter)]);
  return fc.record(Object.fromEntries(each));
}

function anyValue(parameter: Parameter): fc.Arbitrary<unknown> {
  switch (parameter.kind) {
    case 'number':
      return anyNumber(parameter);
    case 'choice':
      return fc.constantFrom(...parameter.options);
    case 'switch':
      return fc.boolean();
    case 'colour':
      return ANY_COLOUR;
    case 'numbers':
      return fc.array(anyNumber(parameter), lengths(parameter));
    case 'colours':
      return fc.array(ANY_COLOUR, lengths(parameter));
    case 'text': {
      const texts = fc.stringMatching(new RegExp(`^(?:${parameter.pattern})$`, 'u'));
      return texts.map((text) => (text.length <= parameter.longest ? text : parameter.default));
    }
    case 'picture':
      return fc.constant(parameter.default);
  }
}

const ANY_COLOUR = fc.constantFrom('#000000', '#ffffff', '#7a1f2b');

function anyNumber({
  min,
  max,
  whole,
}: Pick<NumberParameter, 'min' | 'max' | 'whole'>): fc.Arbitrary<number> {
  const between = whole ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true });
  return fc.oneof(fc.constantFrom(min, max), between);
}

function lengths({ least, most }: { readonly least: number; readonly most: number }) {
  return { minLength: least, maxLength: most };
}
