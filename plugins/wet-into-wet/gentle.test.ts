import { boxOf, parseLayout, randomStream } from 'tenter';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { meanOf } from '../testing/measure.ts';
import { makeWet, paintWet } from '../testing/wet-into-wet.ts';
import { PARAMETERS, type Values } from './parameters.ts';
import { laySpatter } from './sources.ts';

const DROPS = { blooms: 60, spatter: 120, floods: 1, charges: 30, variety: 1 };
/** What `loadOf` lets through: a stain always stays, and gathered paint never cakes. */
const [LEAST, MOST] = [0.22, 2.6];

function paintWhole(values: object, size = '40x30mm') {
  const made = makeWet({ granulation: 0, ...values }, 'drop:1/2', size, { dpi: 100 });
  return { made, ...paintWet(made, 0, 0, made.grid.width, made.grid.height) };
}

/** Mean step of the load from pixel to pixel: more where edges are crisp. */
function crispness(load: Float32Array): number {
  return meanOf(load.slice(1).map((value, k) => Math.abs(value - load[k])));
}

describe('a bone-dry sheet', () => {
  const drops = { floods: 0, charges: 0, blooms: 30, size: 12, spatter: 40, clouds: 0.5 };
  const [dry, soaked] = [0, 1].map((wetness) => paintWhole({ ...drops, wetness }));

  it('takes many drops as crisp marks that keep a stain, and none of its paint is lost', () => {
    expect(dry.load.every((value) => value > LEAST && value < MOST)).toBe(true);
    expect(Math.abs(meanOf(dry.load) - 1)).toBeLessThan(0.01);
    expect(crispness(dry.load)).toBeGreaterThan(1.5 * crispness(soaked.load));
    const sharpness = ({ made }: typeof dry) => meanOf(made.model.sharpness.values);
    expect(sharpness(dry)).toBeGreaterThan(3 * sharpness(soaked));
  });

  it('has as many of them as a soaked one', () => {
    expect(dry.made.reports).toEqual(soaked.made.reports);
    const marks = dry.made.reports.reduce((sum, { value }) => sum + Number(value), 0);
    expect(marks).toBeGreaterThan(5);
  });
});

describe('more drops than the tile holds', () => {
  it.each([6, 80])('of %f mm are a flooded sheet, finite and of mean 1', (size) => {
    const { load, shift } = paintWhole({ ...DROPS, size, backrun: 1.5 });
    expect(load.every((value) => value > LEAST && value < MOST)).toBe(true);
    expect(shift.every((mm) => Math.abs(mm) < 12)).toBe(true);
    expect(Math.abs(meanOf(load) - 1)).toBeLessThan(0.01);
  });

  it('are let in up to forty thousand', () => {
    const box = boxOf({ layout: parseLayout('straight'), width: 60, height: 60 });
    const values = resolveValues('wet-into-wet', PARAMETERS, {}) as Values;
    const thrown = (spatter: number) =>
      laySpatter(
        { ...values, spatter },
        box,
        (name) => randomStream('test', name),
        () => 1,
      ).count;
    expect(thrown(120)).toBeLessThan(200);
    expect(thrown(1e9)).toBeGreaterThan(30_000);
    expect(thrown(1e9)).toBeLessThan(44_000);
  });
});
