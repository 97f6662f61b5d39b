import { type Color, converter, type Mode, rgb } from 'culori';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { decodeSrgb } from '../colour/index.ts';
import { readPicture } from './index.ts';
import { srgbProfile } from './stamp.ts';
import { filer, testFolder } from './testing/folder.ts';
import {
  gammaCurve,
  greyProfile,
  matrixProfile,
  parametricCurve,
  sampledCurve,
  tableProfile,
  type Xyz,
} from './testing/icc-file.ts';
import { highByteFirst, pngFile, profileChunk } from './testing/png-file.ts';
import { type TiffTag, tiffFile } from './testing/tiff-file.ts';

const file = filer(testFolder());
const xyz = converter('xyz50');

/** Primaries under D50, as culori has them. */
function primariesOf(mode: Mode): [Xyz, Xyz, Xyz] {
  const of = (r: number, g: number, b: number): Xyz => {
    const { x, y, z } = xyz({ mode, r, g, b } as Color);
    return [x, y, z];
  };
  return [of(1, 0, 0), of(0, 1, 0), of(0, 0, 1)];
}

/** Every mixture of five steps. */
const STEPS = [0, 0.1, 0.35, 0.7, 1];
const MIXTURES = STEPS.flatMap((r) => STEPS.flatMap((g) => STEPS.map((b) => [r, g, b])));

/** What culori makes of the samples of a colour space, clipped to sRGB. */
function expected(mode: Mode, samples: readonly number[], top: number): number[] {
  const { r, g, b } = rgb({ mode, r: samples[0] / top, g: samples[1] / top, b: samples[2] / top } as Color);
  return [r, g, b].map((part) => Math.min(1, Math.max(0, part)) * top);
}

function picture(bits: 8 | 16, samples: readonly number[], profile: Uint8Array): string {
  const rows = bits === 8 ? Buffer.from(samples) : highByteFirst(samples);
  const width = samples.length / 3;
  return file(pngFile({ width, height: 1, depth: bits, colour: 2, rows, chunks: [profileChunk(profile)] }));
}

/** The largest difference from culori, in samples, over all mixtures. */
async function worst(mode: Mode, bits: 8 | 16, profile: Uint8Array): Promise<number> {
  const top = 2 ** bits - 1;
  const samples = MIXTURES.flat().map((part) => Math.round(part * top));
  const { pixels, notes } = await readPicture(picture(bits, samples, profile));
  expect(notes).toEqual(['its colour profile "Test colours" was converted to sRGB']);
  const differences = MIXTURES.flatMap((_, index) =>
    expected(mode, samples.slice(index * 3, index * 3 + 3), top).map((part, channel) =>
      Math.abs(part - pixels[index * 4 + channel]),
    ),
  );
  return Math.max(...differences);
}

/** The curve of sRGB, form 3 (IEC 61966-2-1). */
const SRGB_CURVE = parametricCurve(3, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045);
/** ITU-R BT.2020, table 4, turned round. */
const [ALPHA, BETA] = [1.09929682680944, 0.018053968510807];
const BT2020_CURVE = parametricCurve(3, 1 / 0.45, 1 / ALPHA, (ALPHA - 1) / ALPHA, 1 / 4.5, 4.5 * BETA);

/**
 * A number of a profile is rounded to 1/65,536, which at black, where sRGB is steepest (12.92), is 13
 * samples of 16 bit.
 */
const TOLERANCE = { 8: 0.6, 16: 16 };

describe.each([8, 16] as const)('a profile of curves and a matrix, %i bit, against culori', (bits) => {
  it.each<[string, Mode, Buffer]>([
    ['Display P3', 'p3', matrixProfile(primariesOf('p3'), SRGB_CURVE)],
    ['Display P3 by a sampled curve', 'p3', matrixProfile(primariesOf('p3'), sampledCurve(4096, decodeSrgb))],
    ['Adobe RGB (1998)', 'a98', matrixProfile(primariesOf('a98'), gammaCurve(563 / 256))],
    ['BT.2020', 'rec2020', matrixProfile(primariesOf('rec2020'), BT2020_CURVE)],
  ])('%s', async (_, mode, profile) => {
    expect(await worst(mode, bits, profile)).toBeLessThanOrEqual(TOLERANCE[bits]);
  });

  it('keeps grey grey and white white', async () => {
    const top = 2 ** bits - 1;
    const greys = Array.from({ length: 64 }, (_, index) => Math.round((index / 63) * top));
    const samples = greys.flatMap((grey) => [grey, grey, grey]);
    const profile = matrixProfile(primariesOf('a98'), gammaCurve(563 / 256));
    const { pixels } = await readPicture(picture(bits, samples, profile));
    for (let at = 0; at < pixels.length; at += 4) {
      expect([pixels[at + 1], pixels[at + 2]]).toEqual([pixels[at], pixels[at]]);
    }
    expect([...pixels.slice(-4)]).toEqual([top, top, top, top]);
  });

  it('leaves sRGB to the last bit, by whatever profile it is called so', async () => {
    const samples = Array.from({ length: 768 }, (_, index) => (index * 257 * 85) % 2 ** bits);
    const rgba = Array.from({ length: 256 }, (_, index) => [
      ...samples.slice(index * 3, index * 3 + 3),
      2 ** bits - 1,
    ]);
    const primaries = primariesOf('rgb');
    for (const profile of [
      await srgbProfile(),
      matrixProfile(primaries, SRGB_CURVE),
      matrixProfile(primaries, sampledCurve(1024, decodeSrgb)),
    ]) {
      const { pixels, notes } = await readPicture(picture(bits, samples, profile));
      expect([...pixels]).toEqual(rgba.flat());
      expect(notes).toEqual([]);
    }
  });

  it('does not take a plain power of 2.2 for sRGB', async () => {
    const top = 2 ** bits - 1;
    const samples = [0.1, 0.1, 0.1].map((part) => Math.round(part * top));
    const profile = matrixProfile(primariesOf('rgb'), gammaCurve(2.2));
    const { pixels } = await readPicture(picture(bits, samples, profile));
    const linear = (samples[0] / top) ** (Math.round(2.2 * 256) / 256);
    const { r } = rgb({ mode: 'lrgb', r: linear, g: linear, b: linear });
    expect(Math.abs(pixels[0] - r * top)).toBeLessThanOrEqual(TOLERANCE[bits]);
  });

  // Left to the engine, whose 16-bit arithmetic interpolates; the profile of the test is exact to 1/1024 of its curve.
  it('a profile of tables, RGB', async () => {
    const profile = tableProfile(primariesOf('a98'), (sample) => sample ** (563 / 256));
    expect(await worst('a98', bits, profile)).toBeLessThanOrEqual(0.01 * (2 ** bits - 1));
  });

  it.each<[string, Buffer]>([
    ['one curve', greyProfile(gammaCurve(1.8))],
    ['tables', tableProfile([[0.9642, 1, 0.8249]], (sample) => sample ** (461 / 256))],
  ])('a grey profile of %s', async (_, profile) => {
    const top = 2 ** bits - 1;
    const greys = [0, 0.1, 0.2, 0.5, 0.8, 1].map((part) => Math.round(part * top));
    const rows = bits === 8 ? Buffer.from(greys) : highByteFirst(greys);
    const chunks = [profileChunk(profile)];
    const path = file(pngFile({ width: greys.length, height: 1, depth: bits, colour: 0, rows, chunks }));
    const { pixels, notes } = await readPicture(path);
    expect(notes).toEqual([
      'its colour profile "Test colours" was converted to sRGB',
      'grey was expanded to RGB',
    ]);
    greys.forEach((grey, index) => {
      const linear = (grey / top) ** (461 / 256);
      const { r } = rgb({ mode: 'lrgb', r: linear, g: linear, b: linear });
      const got = [...pixels.slice(index * 4, index * 4 + 3)];
      for (const part of got) expect(Math.abs(part - r * top)).toBeLessThanOrEqual(0.006 * top);
    });
  });
});

describe('a profile that cannot be used', () => {
  const good = matrixProfile(primariesOf('p3'), SRGB_CURVE);
  const changed = (change: (bytes: Buffer) => void) => {
    const bytes = Buffer.from(good);
    change(bytes);
    return bytes;
  };
  it.each<[string, Buffer]>([
    ['no curves', changed((bytes) => bytes.fill(0, bytes.indexOf('para')))],
    ['tags that point beyond it', changed((bytes) => bytes.fill(0x7f, 136, 140))],
    [
      'another white',
      matrixProfile(primariesOf('p3').map((part) => part.map((v) => v / 2)) as never, SRGB_CURVE),
    ],
    ['colours of a press', changed((bytes) => bytes.write('CMYK', 16, 'latin1'))],
  ])('%s: the samples stay as they are, with a note', async (_, profile) => {
    const tags: TiffTag[] = [[34_675, 7, profile]];
    for (const bits of [8, 16]) {
      const samples = bits === 8 ? [156, 78, 39] : [40_000, 20_000, 10_000];
      const strip = bits === 8 ? Buffer.from(samples) : highByteFirst(samples);
      const parts = {
        width: 1,
        height: 1,
        bits: [bits, bits, bits],
        photometric: 2,
        strip,
        tags,
        bigEndian: true,
      };
      const { pixels, notes } = await readPicture(file(tiffFile(parts), '.tif'));
      expect([...pixels]).toEqual([...samples, 2 ** bits - 1]);
      expect(notes.join()).toMatch(
        /^its colour profile ".*" cannot be used; the colours were taken as sRGB$/,
      );
    }
  });
});

describe('CMYK', () => {
  const INKS = { paper: [0, 0, 0, 0], cyan: [255, 0, 0, 0], yellow: [0, 0, 255, 0], black: [0, 0, 0, 255] };
  const strip = Buffer.from(Object.values(INKS).flat());
  let press: Buffer;

  beforeAll(async () => {
    const image = sharp({ create: { width: 1, height: 1, channels: 3, background: '#fff' } });
    const tagged = await image.toColourspace('cmyk').withIccProfile('cmyk').tiff().toBuffer();
    press = (await sharp(tagged).metadata()).icc as Buffer;
  });

  function tiff(bits: number, samples: Uint8Array, tags: TiffTag[] = []): string {
    const separated: TiffTag = [332, 3, [1]];
    return file(
      tiffFile({
        width: 4,
        height: 1,
        bits: Array(4).fill(bits),
        photometric: 5,
        strip: samples,
        tags: [separated, ...tags],
      }),
      '.tif',
    );
  }

  // No exact figures: they depend on the press profile. From memory of process inks on white paper.
  function expectInks(pixels: ArrayLike<number>): void {
    const [paper, cyan, yellow, black] = [0, 4, 8, 12].map((at) => [
      pixels[at],
      pixels[at + 1],
      pixels[at + 2],
    ]);
    for (const part of paper) expect(part).toBeGreaterThan(245);
    expect(cyan[0]).toBeLessThan(80);
    expect(cyan[2]).toBeGreaterThan(190);
    expect(yellow[0]).toBeGreaterThan(220);
    expect(yellow[2]).toBeLessThan(80);
    for (const part of black) expect(part).toBeLessThan(80);
    for (const at of [3, 7, 11, 15]) expect(pixels[at]).toBe(255);
  }

  it('of a TIFF becomes sRGB by a general profile, and says so', async () => {
    const { pixels, notes, bits } = await readPicture(tiff(8, strip));
    expectInks(pixels);
    expect(bits).toBe(8);
    expect(notes).toEqual([
      'CMYK was converted to sRGB by a general press profile; printed colours may differ',
    ]);
  });

  it('of 16 bit comes as 8 bit', async () => {
    const wide = Buffer.from([...strip].flatMap((sample) => [sample, sample]));
    const { pixels, bits } = await readPicture(tiff(16, wide));
    expect(bits).toBe(8);
    expectInks(pixels);
  });

  it('goes by the profile in the file where there is one', async () => {
    const { pixels, notes } = await readPicture(tiff(8, strip, [[34_675, 7, press]]));
    expectInks(pixels);
    expect(notes.join()).toMatch(
      /^CMYK was converted to sRGB by its profile "[^"]+"; printed colours may differ$/,
    );
    const mismatched = await readPicture(tiff(8, strip, [[34_675, 7, await srgbProfile()]]));
    expectInks(mismatched.pixels);
    expect(mismatched.notes.join()).toMatch(/cannot be used,CMYK was converted to sRGB by a general/);
  });

  it('of a JPEG', async () => {
    const image = sharp({ create: { width: 16, height: 16, channels: 3, background: '#ffffff' } });
    const bytes = await image.toColourspace('cmyk').jpeg({ quality: 100 }).toBuffer();
    expect((await sharp(bytes).metadata()).space).toBe('cmyk');
    const { pixels, notes } = await readPicture(file(bytes, '.jpg'));
    for (const part of pixels) expect(part).toBeGreaterThan(245);
    expect(notes.join()).toMatch(/^CMYK was converted/);
  });
});
