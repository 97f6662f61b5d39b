import fc from 'fast-check';
import FFT from 'fft.js';
import { boxOf, type NumberParameter, parseLayout } from 'tenter';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { litPaper, makePaper, paintPaper } from '../testing/paper-tooth.ts';
import { drawFibres, POINTS, REACH, strewFibres } from './fibres.ts';
import paper from './index.ts';
import { layWires } from './laid.ts';
import { flattened } from './sheet.ts';

const QUIET = { grain: 0, fibres: 0, clouds: 0 };

describe('the sheet', () => {
  const heightsOf = (parameters: object) =>
    makePaper(parameters as never, 'straight', '40x40mm').model.sheet.values;
  const spread = (values: Float32Array) => Math.sqrt(meanOf(values.map((value) => value * value)));
  const skew = (values: Float32Array) => meanOf(values.map((value) => value ** 3)) / spread(values) ** 3;
  it('lies about its mean, the shallower the more it was pressed', () => {
    const [rough, cold, hot] = [0, 0.4, 1].map((pressed) => heightsOf({ pressed }));
    for (const heights of [rough, cold, hot]) expect(Math.abs(meanOf(heights))).toBeLessThan(1e-4);
    expect(spread(rough)).toBeCloseTo(1, 3);
    expect(spread(cold)).toBeLessThan(0.8);
    expect(spread(hot)).toBeLessThan(0.35);
  });
  it('pressing leaves pits in a plain: the heights lean to the low side', () => {
    expect(skew(heightsOf({ pressed: 0 }))).toBeLessThan(0);
    expect(skew(heightsOf({ pressed: 1 }))).toBeLessThan(2 * skew(heightsOf({ pressed: 0 })));
  });
  it('a press leaves what lies far below it and flattens what stands above', () => {
    expect(flattened(-12, 0)).toBeCloseTo(-12, 6);
    expect(flattened(12, 0)).toBeCloseTo(0, 6);
    expect(flattened(-400, 0)).toBeCloseTo(-400, 6);
    expect(flattened(0.2, 0) - flattened(0.1, 0)).toBeLessThan(0.05);
  });
  it('coarser tooth, same slopes: shade varies as much, only more slowly', () => {
    const deviation = (tooth: number) => {
      const made = makePaper({ ...QUIET, tooth }, 'straight', '60x60mm');
      const shade = litPaper(made, 0, 0, 600, 400);
      const mean = meanOf(shade);
      return Math.sqrt(meanOf(shade.map((value) => (value - mean) ** 2)));
    };
    expect(deviation(1.4) / deviation(2.4)).toBeGreaterThan(0.7);
    expect(deviation(1.4) / deviation(2.4)).toBeLessThan(1.4);
  });
});

describe('light', () => {
  const light = (direction: number, elevation: number) => ({ direction, elevation, gloss: 0 });
  it('a flank towards the light is bright, one away from it dark', () => {
    const made = makePaper({ ...QUIET, felt: 0 }, 'straight', '30x30mm');
    const { relief } = paintPaper(made, 0, 0, 354, 354);
    const shade = litPaper(made, 0, 0, 354, 354, light(0, 24));
    const falls = relief.map((_, k) => (k % 354 > 0 && k % 354 < 353 ? relief[k - 1] - relief[k + 1] : 0));
    expect(correlation(falls, shade)).toBeGreaterThan(0.9);
    expect(height(relief)).toBeGreaterThan(0.015);
    expect(height(relief)).toBeLessThan(0.04);
  });
  it('lower light, deeper shade', () => {
    const made = makePaper(QUIET, 'straight', '30x30mm');
    const range = (elevation: number) => {
      const shade = litPaper(made, 0, 0, 200, 200, light(218, elevation));
      return Math.max(...shade) - Math.min(...shade);
    };
    expect(range(12)).toBeGreaterThan(1.2 * range(25));
    expect(range(25)).toBeGreaterThan(1.5 * range(60));
  });
  it('is no longer a parameter, and the message says where it went', () => {
    for (const name of ['light', 'rake']) {
      expect(() => resolveValues('paper-tooth', paper.parameters, { [name]: 30 }, paper.retired)).toThrow(
        `paper-tooth no longer takes "${name}". The light is the recipe's now`,
      );
    }
  });
  /** The deviation of heights, mm. */
  function height(relief: Float32Array): number {
    const mean = meanOf(relief);
    return Math.sqrt(meanOf(relief.map((value) => (value - mean) ** 2)));
  }
});

describe('paint in the hollows', () => {
  // Curtis et al., Computer-Generated Watercolor (1997): granulating pigment settles in the hollows of the paper.
  it('lies thick where the sheet is low and thin where it is high, none lost', () => {
    const made = makePaper({ ...QUIET, granulation: 60 }, 'straight', '30x30mm');
    const { load } = paintPaper(made, 0, 0, 354, 354);
    const { sheet } = made.model;
    const heights = Float32Array.from(load, (_, k) => {
      const column = Math.floor(((k % 354) + 0.5) * (sheet.width / 354));
      const row = Math.floor((Math.floor(k / 354) + 0.5) * (sheet.height / 354));
      return sheet.values[row * sheet.width + column];
    });
    expect(correlation(heights, load)).toBeLessThan(-0.7);
    expect(Math.abs(meanOf(load) - 1)).toBeLessThan(0.02);
  });
  it('without granulation there is no load to lay', () => {
    expect(paper.planesFor?.({ granulation: 0 } as never)).toEqual(['relief', 'shade']);
    expect(paper.planesFor?.({ granulation: 1 } as never)).toEqual(['relief', 'shade', 'load']);
  });
});

describe('laid lines', () => {
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])('close over %s', (layout) => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 500, noNaN: true }),
        fc.double({ min: 0.3, max: 1.4, noNaN: true }),
        fc.double({ min: 10, max: 60, noNaN: true }),
        (size, laidPerMm, spacing) => {
          const box = boxOf({ layout: parseLayout(layout), width: size, height: 0.8 * size });
          const wires = layWires(box, laidPerMm, spacing);
          const { ax, ay, bx, by } = box.lattice;
          for (const whole of [
            wires.laidPerMm * ay,
            wires.laidPerMm * by,
            wires.chainsPerMm * ax,
            wires.chainsPerMm * bx,
          ]) {
            expect(Math.abs(whole - Math.round(whole))).toBeLessThan(1e-6);
          }
        },
      ),
      { seed: 2, numRuns: 60 },
    );
  });
  it('show as many as were reported', () => {
    const made = makePaper(
      { ...QUIET, laid: 8, depth: 0.4, pressed: 1, granulation: 0 },
      'straight',
      '51.2x51.2mm',
      254,
    );
    const lines = Math.round(Number(made.reports[0].value) * 5.12);
    const shade = litPaper(made, 0, 0, 512, 512);
    const fft = new FFT(512);
    const [line, waves] = [new Float64Array(1024), new Float64Array(1024)];
    for (let y = 0; y < 512; y++) line[2 * y] = meanOf(shade.subarray(512 * y, 512 * (y + 1)));
    fft.transform(waves, line);
    const power = Array.from({ length: 200 }, (_, f) =>
      f < 8 ? 0 : waves[2 * f] ** 2 + waves[2 * f + 1] ** 2,
    );
    expect(power.indexOf(Math.max(...power))).toBe(lines);
  });
});

describe('fibres', () => {
  const box = boxOf({ layout: parseLayout('drop:1/2'), width: 80, height: 60 });
  const random = makeRandom();
  const fibres = strewFibres(box, 0.006, random);
  it('are as many as were asked, and reach no farther than is looked for', () => {
    expect(Math.abs(fibres.x.length / (0.006 * 80 * 60) - 1)).toBeLessThan(0.4);
    for (let k = 0; k < fibres.x.length; k++) {
      for (let n = 0; n < POINTS; n++) {
        expect(Math.hypot(fibres.dx[k * POINTS + n], fibres.dy[k * POINTS + n])).toBeLessThan(REACH);
      }
    }
  });
  const drawn = (mm: number, x: number, y: number, mark: (pixel: number, cover: number) => void) => {
    const [width, height] = [Math.round(80 / mm), Math.round(60 / mm)];
    drawFibres(fibres, box, { x, y, width, height, mmPerPixelX: mm, mmPerPixelY: mm }, mark);
  };
  it.each([0.08, 0.32, 0.8])(
    'cover as much of the page as they are long and wide, at %f mm per pixel',
    (mm) => {
      let cover = 0;
      drawn(mm, 0, 0, (_, share) => {
        cover += share * mm * mm;
      });
      let wanted = 0;
      for (let k = 0; k < fibres.x.length; k++) {
        for (let n = k * POINTS + 1; n < (k + 1) * POINTS; n++) {
          const long = Math.hypot(fibres.dx[n] - fibres.dx[n - 1], fibres.dy[n] - fibres.dy[n - 1]);
          wanted += 2 * fibres.half[k] * long;
        }
      }
      expect(Math.abs(cover / wanted - 1)).toBeLessThan(0.2);
    },
  );
  it('run on over the edges of the box', () => {
    const marks = (x: number, y: number) => {
      const found = new Map<number, number>();
      drawn(0.2, x, y, (pixel, cover) => found.set(pixel, Math.max(cover, found.get(pixel) ?? 0)));
      return found;
    };
    // Half a drop down is one box to the right: 400 by 150 pixels.
    const [home, there] = [marks(-50, -70), marks(350, 80)];
    expect(there.size).toBe(home.size);
    for (const [pixel, cover] of home) expect(there.get(pixel)).toBeCloseTo(cover, 3);
  });
});

function makeRandom() {
  let state = 7;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
  return {
    next,
    between: (low: number, high: number) => low + (high - low) * next(),
    below: (count: number) => Math.floor(next() * count),
    normal: () => 0,
    bits: () => Math.floor(next() * 4294967296),
  };
}

describe('density', () => {
  it.each([
    [150, 2, 0.95],
    [75, 4, 0.85],
    [50, 6, 0.75],
  ])('%i dpi is what 300 dpi looks like from %i times as far', (dpi, factor, likeness) => {
    const near = makePaper({}, 'straight', '50.8x50.8mm', 300);
    const far = makePaper({}, 'straight', '50.8x50.8mm', dpi);
    for (const plane of ['lit shade', 'load'] as const) {
      const painted = (made: typeof near, side: number) =>
        plane === 'load' ? paintPaper(made, 0, 0, side, side).load : litPaper(made, 0, 0, side, side);
      const wanted = boxFiltered(painted(near, 600), 600, factor);
      const got = painted(far, 600 / factor);
      expect(Math.abs(meanOf(got) - meanOf(wanted))).toBeLessThan(0.006);
      expect(correlation(got, wanted)).toBeGreaterThan(likeness);
    }
  });
  it('a sketch has the same hollows', () => {
    const [fine, rough] = (['finished', 'sketch'] as const).map((quality) =>
      makePaper({ ...QUIET, tooth: 0.6 }, 'straight', '220x200mm', { dpi: 60, quality }),
    );
    const [a, b] = [fine, rough].map((made) => paintPaper(made, 100, 100, 200, 200).load);
    expect(correlation(a, b)).toBeGreaterThan(0.8);
    expect(rough.model.sheet.values.length).toBeLessThan(0.8 * fine.model.sheet.values.length);
  });
});

describe('parameters', () => {
  const extremes = Object.fromEntries(
    Object.entries(paper.parameters).map(([name, parameter]) => {
      const { min, max, default: usual } = parameter as NumberParameter;
      return [name, fc.constantFrom(min, max, usual, (min + max) / 2)];
    }),
  );
  it('anywhere in range give finite planes in range', () => {
    fc.assert(
      fc.property(
        fc.record(extremes),
        fc.constantFrom('straight', 'drop:1/3', 'brick:1/2'),
        fc.constantFrom(300, 60),
        (parameters, layout, dpi) => {
          const made = makePaper(parameters, layout, '24x18mm', dpi);
          const { shade, load } = paintPaper(made, -5, -5, 40, 40);
          expect(shade.every((value) => value >= 0 && value < 3)).toBe(true);
          expect(load.every((value) => value >= 0 && value < 8)).toBe(true);
        },
      ),
      { seed: 5, numRuns: 60 },
    );
  });
  it('twice the same is the same to the bit', () => {
    const [a, b] = [makePaper({}, 'straight', '20x20mm'), makePaper({}, 'straight', '20x20mm')];
    expect(paintPaper(a, 3, 4, 50, 50).shade).toEqual(paintPaper(b, 3, 4, 50, 50).shade);
  });
  it('keep the mean light near that of level paper', () => {
    for (const parameters of [{}, { depth: 2 }, { laid: 10 }, { pressed: 1 }]) {
      const made = makePaper(parameters, 'straight', '60x60mm', 150);
      expect(Math.abs(meanOf(litPaper(made, 0, 0, 354, 354)) - 0.97)).toBeLessThan(0.03);
    }
  });
});
