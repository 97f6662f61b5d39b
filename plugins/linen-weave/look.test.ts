import FFT from 'fft.js';
import { ssim } from 'ssim.js';
import { describe, expect, it } from 'vitest';
import { makeLinen, paintLinen } from '../testing/linen-weave.ts';
import { meanOf } from '../testing/measure.ts';
import linen from './index.ts';

/** The frequency, in waves per box, at which rows (or columns) of the shade have the most power. */
function peakFrequency(
  shade: Float32Array,
  size: number,
  alongRows: boolean,
  from: number,
  to: number,
): number {
  const fft = new FFT(size);
  const line = new Float64Array(2 * size);
  const spectrum = new Float64Array(2 * size);
  const power = new Float64Array(size / 2);
  for (let k = 0; k < size; k++) {
    for (let n = 0; n < size; n++) line[2 * n] = shade[alongRows ? k * size + n : n * size + k];
    fft.transform(spectrum, line);
    for (let f = 1; f < size / 2; f++) power[f] += spectrum[2 * f] ** 2 + spectrum[2 * f + 1] ** 2;
  }
  let best = from;
  for (let f = from; f <= to; f++) if (power[f] > power[best]) best = f;
  return best;
}

describe('thread count', () => {
  // Johnson et al., A thread counting algorithm for art forensics (2009): the peak of the spectrum is the threads per length.
  it.each([
    ['plain', 'straight', {}],
    ['plain', 'drop:1/2', { ends: 15.3, picks: 11.2 }],
    ['twill', 'brick:1/3', {}],
    ['basket', 'straight', { ends: 11, picks: 14 }],
  ])('of a %s over %s is what was reported', (weave, layout, parameters) => {
    // 512 px over 51.2 mm is 254 dpi.
    const made = makeLinen({ weave, ...parameters }, layout, '51.2x51.2mm', 254);
    const [ends, picks] = made.reports.map(({ value }) => Math.round(Number(value) * 5.12));
    const { shade } = paintLinen({ ...made }, 0, 0, 512, 512);
    const near = (count: number) => [Math.floor(0.72 * count), Math.ceil(1.4 * count)] as const;
    expect(peakFrequency(shade, 512, true, ...near(ends))).toBe(ends);
    expect(peakFrequency(shade, 512, false, ...near(picks))).toBe(picks);
  });
});

describe('cover', () => {
  const EVEN = {
    unevenness: 0,
    slubs: 0,
    straying: 0,
    tone: 0,
    gap: 0,
    warpColour: '#000000',
    weftColour: '#000000',
  };
  const shareOfYarn = (tint: Float32Array) => meanOf(tint.filter((_, k) => k % 4 === 3));
  // Peirce 1937: C = C1 + C2 - C1 C2, each from width times threads. Worked by hand: flax of density 1.5 packed
  // to 0.62 is sqrt(4e-3 tex / (pi 0.93)) mm thick, and lies sqrt(1.68) times as wide at wear 0.2.
  // A plain weave closes on even counts: 48 by 46, 72 by 66 and 30 by 28 threads in 30 mm.
  it.each([
    [16, 15, 56, 56, 0.8085],
    [24, 22, 25, 25, 0.7995],
    [10, 9, 105, 105, 0.7247],
  ])('of %i x %i per cm is that of its geometry', (ends, picks, warpCount, weftCount, wanted) => {
    const made = makeLinen({ ...EVEN, ends, picks, warpCount, weftCount }, 'straight', '30x30mm', 1200);
    expect(made.model.cover).toBeCloseTo(wanted, 3);
    expect(Math.abs(shareOfYarn(paintLinen(made, 0, 0, 300, 300).tint) - wanted)).toBeLessThan(0.02);
  });
});

describe('light', () => {
  const half = { ends: 12, picks: 12 };
  it.each([
    [{}, 0.88],
    [{ relief: 0 }, 1],
    [{ relief: 0.5 }, 0.94],
    [{ weave: 'satin', ends: 28, picks: 20, warpCount: 50, weftCount: 50 }, 0.88],
    [{ ...half, warpCount: 60, weftCount: 60, gap: 100 }, 0.88],
  ])('%j: the mean shade is 1 - 0.12 relief', (parameters, wanted) => {
    const made = makeLinen(parameters, 'straight', '60x60mm');
    const { shade } = paintLinen(made, 0, 0, made.grid.width, made.grid.height);
    expect(Math.abs(meanOf(shade) - wanted)).toBeLessThan(0.012);
  });
  it('falls on the side it comes from', () => {
    const even = { unevenness: 0, slubs: 0, straying: 0, tone: 0, fibres: 0, weave: 'satin' };
    // The left flank of each end against its right one, with the light from the left and from the right.
    const flanks = (light: number) => {
      const made = makeLinen({ ...even, light }, 'straight', '20x20mm', 1200);
      const { width } = made.grid;
      const { ends } = made.model.sett;
      const { shade } = paintLinen(made, 0, 0, width, 200);
      const sums = [0, 0];
      for (let k = 0; k < shade.length; k++) {
        const place = ((((k % width) + 0.5) * ends) / width) % 1;
        if (place > 0.2 && place < 0.45) sums[0] += shade[k];
        if (place > 0.55 && place < 0.8) sums[1] += shade[k];
      }
      return sums[0] / sums[1];
    };
    expect(flanks(180)).toBeGreaterThan(1.06);
    expect(flanks(0)).toBeLessThan(0.94);
  });
  it('leaves fewer than one pixel in a thousand above one and a half', () => {
    const made = makeLinen({}, 'straight', '60x60mm');
    const { shade } = paintLinen(made, 0, 0, 700, 700);
    expect(shade.filter((value) => value > 1.5).length / shade.length).toBeLessThan(0.001);
  });
});

describe('density', () => {
  const encode = (light: number) => 255 * Math.min(1, light) ** (1 / 2.2);
  const pictureOf = (shade: Float32Array, width: number, height: number) => {
    const data = new Uint8ClampedArray(4 * width * height);
    shade.forEach((value, k) => {
      data.fill(encode(0.8 * value), 4 * k, 4 * k + 3);
      data[4 * k + 3] = 255;
    });
    return { data, width, height };
  };
  const boxFilter = (shade: Float32Array, width: number, height: number, factor: number) => {
    const columns = Math.round(width / factor);
    const small = new Float32Array(columns * Math.floor(height / factor));
    const counts = new Float32Array(small.length);
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const k = Math.floor(y / factor) * columns + Math.floor(x / factor);
        small[k] += shade[y * width + x];
        counts[k]++;
      }
    }
    return small.map((sum, k) => sum / counts[k]);
  };
  // SSIM: Wang et al. 2004, by ssim.js.
  it.each([
    [150, 2, {}],
    [75, 4, {}],
    [30, 10, {}],
    [75, 4, { weave: 'satin', ends: 28, picks: 20, warpCount: 50, weftCount: 50 }],
    [75, 4, { ends: 6, picks: 6, warpCount: 500, weftCount: 500 }],
  ])('%i dpi is what 300 dpi looks like from %i times as far: %j', (dpi, factor, parameters) => {
    const size = 600;
    const near = makeLinen(parameters, 'straight', '50.8x50.8mm', 300);
    const far = makeLinen(parameters, 'straight', '50.8x50.8mm', dpi);
    const wanted = boxFilter(paintLinen(near, 0, 0, size, size).shade, size, size, factor);
    const small = size / factor;
    const got = paintLinen(far, 0, 0, small, small).shade;
    const { mssim } = ssim(pictureOf(wanted, small, small), pictureOf(got, small, small), {
      downsample: false,
    });
    expect(mssim).toBeGreaterThan(0.95);
    expect(Math.abs(meanOf(got) / meanOf(wanted) - 1)).toBeLessThan(0.015);
  });
  it.each([
    [{}, 0.6],
    [{ tone: 25, straying: 0, unevenness: 0, slubs: 0 }, 0.9],
  ])('from afar keeps the mean and the streaks: %j', (parameters, likeness) => {
    const near = makeLinen(parameters, 'straight', '96x96mm', 254);
    const far = makeLinen(parameters, 'straight', '96x96mm', 10.05);
    expect(far.grid.width).toBe(38);
    const wanted = boxFilter(paintLinen(near, 0, 0, 960, 375).shade, 960, 375, 25.2632);
    const got = paintLinen(far, 0, 0, 38, 14).shade;
    expect(Math.abs(meanOf(got) / meanOf(wanted) - 1)).toBeLessThan(0.02);
    const [a, b] = [meanOf(got), meanOf(wanted)];
    let [ab, aa, bb] = [0, 0, 0];
    got.forEach((value, k) => {
      ab += (value - a) * (wanted[k] - b);
      aa += (value - a) ** 2;
      bb += (wanted[k] - b) ** 2;
    });
    expect(ab / Math.sqrt(aa * bb)).toBeGreaterThan(likeness);
  });
});

describe('planes', () => {
  const valuesOf = (parameters: object) =>
    ({
      ...Object.fromEntries(Object.entries(linen.parameters).map(([name, p]) => [name, p.default])),
      ...parameters,
    }) as never;
  it('an undyed linen needs no tint', () => {
    expect(linen.planesFor?.(valuesOf({}))).toEqual(['shade']);
    expect(linen.planesFor?.(valuesOf({ warpColour: '#224466' }))).toEqual(['shade', 'tint']);
    expect(linen.planesFor?.(valuesOf({ warpColour: '#224466', dye: 0 }))).toEqual(['shade']);
  });
  it('warp and weft show in their colours, the dye in the alpha', () => {
    const made = makeLinen(
      { warpColour: '#ff0000', weftColour: '#0000ff', dye: 60 },
      'straight',
      '20x20mm',
      600,
    );
    const { tint } = paintLinen(made, 0, 0, 200, 200);
    const reds = tint.filter((_, k) => k % 4 === 0);
    expect(Math.abs(meanOf(reds) - 0.5)).toBeLessThan(0.1);
    expect(reds.filter((red) => red < 0.01 || red > 0.99).length / reds.length).toBeGreaterThan(0.7);
    expect(Math.max(...tint.filter((_, k) => k % 4 === 3))).toBeCloseTo(0.6, 5);
  });
});
