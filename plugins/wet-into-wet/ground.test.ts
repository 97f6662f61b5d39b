import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { meanOf } from '../testing/measure.ts';
import { makeWet, paintWet } from '../testing/wet-into-wet.ts';
import { shoreAt } from './shores.ts';

const STILL = { floods: 0, blooms: 0, spatter: 0, charges: 0, clouds: 0, granulation: 0, tilt: 0 };

function whole(values: Readonly<Record<string, unknown>>, size = '60x50mm', dpi = 100) {
  const made = makeWet(values, 'drop:1/2', size, { dpi });
  return { made, ...paintWet(made, 0, 0, made.grid.width, made.grid.height) };
}
const spreadOf = (values: Float32Array) => {
  const mean = meanOf(values);
  return Math.sqrt(meanOf(values.map((value) => (value - mean) ** 2)));
};

describe('what the water is let into', () => {
  it('is laid by a brush, keeps its paint, and is poured where that is asked', () => {
    const laid = whole({ ...STILL, brushwork: 1 }, '200x160mm', 40).load;
    const poured = whole({ ...STILL, brushwork: 0 }, '200x160mm', 40).load;
    expect(spreadOf(laid)).toBeGreaterThan(0.08);
    expect(spreadOf(poured)).toBeLessThan(0.01);
    expect(Math.abs(meanOf(laid) - 1)).toBeLessThan(0.01);
  });

  it('has crisper structure than soft clouds alone', () => {
    const clouds = { ...STILL, clouds: 0.8, wetness: 0.4 };
    // How much of the load changes from pixel to pixel, of what it changes in all.
    const steepest = ({ load, made }: ReturnType<typeof whole>) => {
      const steps = load
        .slice(1)
        .map((value, k) => ((k + 1) % made.grid.width ? Math.abs(value - load[k]) : 0));
      return steps.sort()[Math.floor(0.995 * steps.length)] / spreadOf(load);
    };
    const [brushed, soft] = [0.8, 0].map((brushwork) => steepest(whole({ ...clouds, brushwork })));
    expect(brushed).toBeGreaterThan(2 * soft);
  });
});

describe('the shore of a pool', () => {
  it('is a line on the deeper side alone, and is nowhere far from it', () => {
    const [outside, line, within] = [-0.3, 0.4, 12].map((mm) => shoreAt(0.26 + 0.02 * mm, 0.02, 0));
    expect(line).toBeGreaterThan(0.3);
    expect(outside).toBeLessThan(0);
    expect(Math.abs(within)).toBeLessThan(0.25 * line);
    expect(shoreAt(5, 0.02, 0)).toBe(0);
  });
});

describe('hues', () => {
  it('part, and of either pigment as much is left as there was', () => {
    const { load, parting } = whole({ blooms: 20, spatter: 30, charges: 6, parting: 1, brushwork: 2 });
    for (const channel of [0, 1, 2]) {
      const own = parting.filter((_, k) => k % 3 === channel);
      expect(Math.abs(meanOf(own))).toBeLessThan(0.01);
      expect(own.every((value, k) => load[k] + value >= 0)).toBe(true);
    }
    expect(spreadOf(parting.filter((_, k) => k % 3 === 0))).toBeGreaterThan(0.1);
  });

  it('part in proportion to what is asked, in poured washes as well, and are one ink at 0', () => {
    const of = (parting: number) => spreadOf(whole({ blooms: 20, brushwork: 0, parting }).parting);
    expect(of(0)).toBe(0);
    expect(of(1) / of(0.5)).toBeCloseTo(2, 3);
  });

  it('part where water ran back: heavy pigment stays, stain goes to the fringe', () => {
    const drops = { ...STILL, blooms: 30, size: 14, wetness: 0.2, move: 0, brushwork: 0, parting: 1 };
    const { load, parting } = whole(drops);
    const share = (wanted: (load: number) => boolean) =>
      meanOf(
        Float32Array.from(load, (value, k) => (wanted(value) ? parting[3 * k] / value : Number.NaN)).filter(
          (value) => !Number.isNaN(value),
        ),
      );
    expect(share((value) => value < 0.75)).toBeGreaterThan(share((value) => value > 1.2) + 0.2);
  });
});

describe('presets', () => {
  it('reach from one hue to strongly parted', () => {
    const partingOf = (name: string) =>
      JSON.parse(readFileSync(new URL(`../../presets/wet-into-wet/${name}.json`, import.meta.url), 'utf8'))
        .parameters.parting;
    expect(partingOf('gutter-spout')).toBe(0);
    expect(partingOf('flint-wall')).toBeGreaterThan(0.6);
  });
});
