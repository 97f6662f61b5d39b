import fc from 'fast-check';
import FFT from 'fft.js';
import { bicubicAt, boxOf, type NumberParameter, parseLayout } from 'tenter';
import { describe, expect, it } from 'vitest';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { makeWatered, paintWatered } from '../testing/watered-silk.ts';
import watered from './index.ts';
import { LAG_STEPS, pressedRib, pressRibs, RIB_STEPS, ROW, roundRib } from './press.ts';
import { closingRibs, closingSlope } from './register.ts';

describe('register', () => {
  const layouts = ['straight', 'drop:1/2', 'drop:3/7', 'brick:1/2', 'brick:2/5'];
  it('both vectors of the repeat change the lag, and count the ribs, by whole numbers', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...layouts),
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.double({ min: 0, max: 0.12, noNaN: true }),
        (layout, width, height, perMm) => {
          const box = boxOf({ layout: parseLayout(layout), width, height });
          const { ax, ay, bx, by } = box.lattice;
          const slope = closingSlope(box.lattice, perMm);
          const ribs = closingRibs(box.lattice, box.layout.denominator, 2.4);
          for (const whole of [slope.x * ax + slope.y * ay, slope.x * bx + slope.y * by, (ribs * ay) / by]) {
            expect(Math.abs(whole - Math.round(whole))).toBeLessThan(1e-6);
          }
        },
      ),
      { seed: 3, numRuns: 300 },
    );
  });
});

/** The frequency, in waves per line, at which a line has the most power, from `least` on. */
function peakOf(line: ArrayLike<number>, least: number): number {
  const size = line.length;
  const fft = new FFT(size);
  const [given, waves] = [new Float64Array(2 * size), new Float64Array(2 * size)];
  for (let n = 0; n < size; n++) given[2 * n] = line[n];
  fft.transform(waves, given);
  let best = least;
  const power = (f: number) => waves[2 * f] ** 2 + waves[2 * f + 1] ** 2;
  for (let f = least; f < size / 2; f++) if (power(f) > power(best)) best = f;
  return best;
}

describe('the water mark', () => {
  const CALM = { bands: 0.2, wander: 0, feather: 0, filaments: 0 };
  // Two gratings show bands at the difference of their frequencies (Amidror, The Theory of the Moire Phenomenon).
  it.each([
    [0.05, 5],
    [0.1, 10],
  ])('of gratings %f ribs per mm apart has %i bands to 102.4 mm', (perMm, bands) => {
    const made = makeWatered({ ...CALM, lines: 1000 * perMm }, 'straight', '102.4x102.4mm', 127);
    const { shade } = paintWatered(made, 0, 0, 512, 512);
    const columns = Float64Array.from({ length: 512 }, (_, x) =>
      meanOf(Array.from({ length: 64 }, (_, k) => shade[k * 8 * 512 + x])),
    );
    expect(peakOf(columns, 2)).toBe(bands);
  });
  it('has the ribs that were reported', () => {
    const made = makeWatered({ ...CALM, ribs: 17, lines: 0 }, 'straight', '51.2x51.2mm', 254);
    const ribs = Math.round(Number(made.reports[0].value) * 5.12);
    const { shade } = paintWatered(made, 0, 0, 1, 512);
    expect(Math.abs(peakOf(shade, 20) - ribs)).toBeLessThanOrEqual(1);
  });
  it('ends sharply on one side of a band and fades on the other, the other way round by light from below', () => {
    const means = (from: number) => {
      const { mark } = pressRibs({ from, relief: 1, mark: 1 });
      return Array.from({ length: LAG_STEPS }, (_, lag) => mark[lag * ROW + RIB_STEPS]);
    };
    const steepest = (line: number[], sign: number) =>
      Math.max(...line.map((value, k) => sign * (line[(k + 1) % LAG_STEPS] - value)));
    const [above, below] = [means(270), means(90)];
    expect(steepest(above, 1)).toBeGreaterThan(1.3 * steepest(above, -1));
    expect(steepest(below, -1)).toBeGreaterThan(1.3 * steepest(below, 1));
    expect(meanOf(above)).toBeCloseTo(0, 5);
    expect(Math.max(...above.map(Math.abs))).toBeCloseTo(1, 5);
  });
});

describe('the press', () => {
  it('crushes crest on crest, leaves crest in hollow, and never lifts a rib', () => {
    expect(pressedRib(0.5, 0)).toBeLessThan(0.7 * roundRib(0.5));
    expect(pressedRib(0.5, 0.5)).toBe(roundRib(0.5));
    for (let lag = 0; lag < 1; lag += 0.05) {
      for (let v = 0.01; v < 1; v += 0.03) expect(pressedRib(v, lag)).toBeLessThanOrEqual(roundRib(v));
    }
  });
  it('presses the flank that the other crest lies on', () => {
    const lost = (v: number, lag: number) => roundRib(v) - pressedRib(v, lag);
    expect(lost(0.7, 0.25)).toBeGreaterThan(lost(0.3, 0.25));
    expect(lost(0.3, -0.25)).toBeGreaterThan(lost(0.7, -0.25));
  });
  it('no pressing, no relief: flat', () => {
    const made = makeWatered({ pressing: 0, relief: 0, filaments: 0 }, 'straight', '20x20mm');
    const { shade } = paintWatered(made, 0, 0, 60, 60);
    expect(Math.max(...shade) - Math.min(...shade)).toBeLessThan(1e-5);
  });
});

describe('the mean light', () => {
  it.each([
    [{}, 0.9],
    [{ pressing: 0.5, relief: 0.5 }, 0.95],
    [{ pressing: 2 }, 0.8],
  ])('%j is 1 - 0.1 of the greater of pressing and relief', (parameters, wanted) => {
    const made = makeWatered(parameters, 'straight', '100x100mm', 100);
    const { shade } = paintWatered(made, 0, 0, made.grid.width, made.grid.height);
    expect(Math.abs(meanOf(shade) - wanted)).toBeLessThan(0.025);
  });
});

describe('density', () => {
  it.each([
    [150, 2, 0.97],
    [75, 4, 0.97],
    [50, 6, 0.97],
    [25, 12, 0.95],
  ])('%i dpi is what 300 dpi looks like from %i times as far', (dpi, factor, likeness) => {
    const near = makeWatered({}, 'straight', '50.8x50.8mm', 300);
    const far = makeWatered({}, 'straight', '50.8x50.8mm', dpi);
    const wanted = boxFiltered(paintWatered(near, 0, 0, 600, 600).shade, 600, factor);
    const got = paintWatered(far, 0, 0, 600 / factor, 600 / factor).shade;
    expect(Math.abs(meanOf(got) - meanOf(wanted))).toBeLessThan(0.006);
    expect(correlation(got, wanted)).toBeGreaterThan(likeness);
  });
});

describe('parameters', () => {
  const extremes = Object.fromEntries(
    Object.entries(watered.parameters).map(([name, parameter]) => {
      const { min, max, default: usual } = parameter as NumberParameter;
      return [name, fc.constantFrom(min, max, usual, (min + max) / 2)];
    }),
  );
  it('anywhere in range give a finite shade in range', () => {
    fc.assert(
      fc.property(
        fc.record(extremes),
        fc.constantFrom('straight', 'drop:1/3', 'brick:1/2'),
        fc.constantFrom(300, 60),
        (parameters, layout, dpi) => {
          const made = makeWatered(parameters, layout, '24x18mm', dpi);
          const { shade } = paintWatered(made, -5, -5, 40, 40);
          expect(shade.every((value) => value >= 0 && value < 3)).toBe(true);
        },
      ),
      { seed: 5, numRuns: 60 },
    );
  });
  it.each(['straight', 'drop:1/3', 'brick:2/5'])('ribs run on downward even in the smallest %s', (layout) => {
    const made = makeWatered({ ribs: 10 }, layout, '4x3mm', 600);
    const { straying, pitch } = made.model;
    for (let y = 0; y < 6; y += 0.05) {
      for (let x = 0; x < 8; x += 0.1) {
        const ribs = 0.05 / pitch + bicubicAt(straying, x, y + 0.05) - bicubicAt(straying, x, y);
        expect(ribs).toBeGreaterThan((0.3 * 0.05) / pitch);
      }
    }
  });
  it('twice the same is the same to the bit', () => {
    const [a, b] = [makeWatered({}, 'straight', '20x20mm'), makeWatered({}, 'straight', '20x20mm')];
    expect(paintWatered(a, 3, 4, 50, 50).shade).toEqual(paintWatered(b, 3, 4, 50, 50).shade);
  });
});
