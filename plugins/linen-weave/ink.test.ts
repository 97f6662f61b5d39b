import type { TextureLayer } from 'tenter';
import { describe, expect, it } from 'vitest';
import { expectAnyCut, expectTranslates } from '../testing/habits.ts';
import { makeLinen, paintLinen } from '../testing/linen-weave.ts';
import { meanOf } from '../testing/measure.ts';
import linen from './index.ts';
import type { LinenPlane } from './parameters.ts';

const OPEN = { ends: 8, picks: 8, warpCount: 90, weftCount: 90, inked: 1 };
const BLACK = { warpColour: '#000000', weftColour: '#000000', gap: 0 };
const ALL: readonly LinenPlane[] = ['shade', 'tint', 'load', 'shift'];

function paint(
  parameters: Record<string, unknown>,
  dpi: number,
  columns: number,
  rows = columns,
): TextureLayer<LinenPlane> {
  return paintLinen(makeLinen(parameters, 'straight', '50.8x50.8mm', dpi), 0, 0, columns, rows, ALL);
}

describe('a print on the threads', () => {
  it('costs nothing where there is none', () => {
    const planesFor = (parameters: object) =>
      linen.planesFor?.({
        ...Object.fromEntries(Object.entries(linen.parameters).map(([name, p]) => [name, p.default])),
        ...parameters,
      } as never);
    expect(planesFor({})).toEqual(['shade']);
    expect(planesFor({ inked: 0.01 })).toEqual(['shade', 'load', 'shift']);
    const { load, shift } = paint({ ...OPEN, inked: 0 }, 300, 100);
    expect([load.every((value) => value === 1), shift.every((value) => value === 0)]).toEqual([true, true]);
  });
  it('leaves the shade as it is', () => {
    expect(paint(OPEN, 300, 100).shade).toEqual(paint({ ...OPEN, inked: 0 }, 300, 100).shade);
  });
  it.each([1, 0.5])('inked %d: misses the open ground, and lies whole on the crowns', (inked) => {
    // Black yarns over a ground that stays white: what is not tinted is ground.
    const { load, tint } = paint({ ...OPEN, ...BLACK, inked }, 600, 500);
    const cover = tint.filter((_, k) => k % 4 === 3);
    const ground = load.filter((_, k) => cover[k] === 0);
    expect(ground.length).toBeGreaterThan(10000);
    expect(Math.max(...ground)).toBeCloseTo(1 - inked, 5);
    const yarn = load.filter((_, k) => cover[k] === 1);
    expect(yarn.filter((value) => value > 0.97).length / yarn.length).toBeGreaterThan(0.4);
    expect(load.every((value) => value >= 0 && value <= 1)).toBe(true);
  });
  it('takes the ink of each thread from nearer to its middle, so that edges step', () => {
    const { shift } = paint({ ...OPEN, unevenness: 0, slubs: 0, straying: 0 }, 600, 300);
    const across = shift.filter((_, k) => k % 2 === 0);
    // Over a thread the way to its middle falls as one walks to the right, and jumps at the next thread.
    const steps = across.map((value, k) => (k % 300 === 299 ? 0 : across[k + 1] - value));
    const mm = 25.4 / 600;
    expect(steps.filter((step) => step < -0.2 * mm).length).toBeGreaterThan(
      5 * steps.filter((step) => step > 2 * mm).length,
    );
    expect(steps.filter((step) => step > 2 * mm).length).toBeGreaterThan(1000);
    expect(Math.abs(meanOf(across))).toBeLessThan(0.002);
    // And never from farther than the half of a float.
    expect(shift.reduce((most, way) => Math.max(most, Math.abs(way)), 0)).toBeLessThan(10 / 8);
  });
  it('fades as pixels outgrow the threads, and is gone from afar', () => {
    const sizeOf = ({ shift }: TextureLayer<LinenPlane>) => Math.sqrt(meanOf(shift.map((way) => way * way)));
    const near = sizeOf(paint(OPEN, 300, 400));
    expect(near).toBeGreaterThan(0.05);
    expect(sizeOf(paint(OPEN, 75, 100))).toBeLessThan(0.85 * near);
    expect(sizeOf(paint(OPEN, 20, 40))).toBeLessThan(0.3 * near);
    expect(sizeOf(paint(OPEN, 8, 16))).toBe(0);
  });
  it.each([75, 30, 8])('lets as much light through at %i dpi as at 300', (dpi) => {
    const lightOf = ({ load }: TextureLayer<LinenPlane>) => meanOf(load.map((value) => 0.1 ** value));
    const near = lightOf(paint(OPEN, 300, 600));
    const size = Math.round(2 * dpi);
    expect(Math.abs(lightOf(paint(OPEN, dpi, size)) / near - 1)).toBeLessThan(0.03);
  });
  it.each([
    [300, 'drop:1/2', '40x30mm', { weave: 'twill' }],
    [300, 'brick:2/5', '44x29mm', { weave: 'satin' }],
    [75, 'drop:1/3', '47x61mm', { weave: 'basket' }],
    [8, 'drop:1/2', '127x127mm', {}],
  ] as const)('closes at %i dpi over %s, %s %j', (dpi, layout, size, parameters) => {
    expectTranslates(makeLinen({ ...OPEN, ...parameters }, layout, size, dpi));
  });
  it('comes out alike however its bands are cut', () => {
    expectAnyCut(makeLinen({ ...OPEN, weave: 'satin' }, 'drop:1/2', '40x30mm', 300), 60, 30);
  });
});
