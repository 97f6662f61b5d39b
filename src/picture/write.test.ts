import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readMask, readPicture, sharedSamples, type WritablePicture, writePicture } from './index.ts';
import { profileOf } from './profile.ts';
import { testFolder } from './testing/folder.ts';
import { chunksOf } from './testing/png-file.ts';
import { tiffNumber } from './testing/tiff-file.ts';

const folder = testFolder();
let count = 0;
const fresh = (ending: string) => join(folder, `written-${++count}${ending}`);
const ENDINGS = ['.png', '.tif', '.tiff', '.PNG'];
const DENSITY = 300 / 25.4;

/** Every level somewhere, in no order; alpha full or mixed. */
function samplePicture(bits: 8 | 16, opaque: boolean, width = 23, height = 17): WritablePicture {
  const pixels = sharedSamples(width * height * 4, bits);
  const top = 2 ** bits - 1;
  for (let at = 0; at < pixels.length; at++) {
    pixels[at] = at % 4 === 3 && opaque ? top : (at * 2_654_435_761) >>> (32 - bits);
  }
  return { pixels, width, height, bits, pixelsPerMm: DENSITY };
}

function readerOf(program: string): ((...args: string[]) => string) | undefined {
  const run = (...args: string[]) => execFileSync(program, args, { encoding: 'utf8', stdio: 'pipe' });
  try {
    execFileSync('which', [program], { stdio: 'ignore' });
    return run;
  } catch {
    return undefined;
  }
}

describe.each(ENDINGS)('a picture written as %s', (ending) => {
  it.each([
    [8, true],
    [8, false],
    [16, true],
    [16, false],
  ] as const)('%i bit, opaque %s, comes back to the last bit', async (bits, opaque) => {
    const picture = samplePicture(bits, opaque);
    const path = fresh(ending);
    const written = await writePicture(path, picture);
    expect(written).toEqual({ bytes: readFileSync(path).length, opaque });
    const known = fresh(ending);
    expect(await writePicture(known, { ...picture, isOpaque: opaque })).toEqual(written);
    expect(readFileSync(known).equals(readFileSync(path))).toBe(true);
    const back = await readPicture(path);
    expect(back).toMatchObject({ width: 23, height: 17, bits, transparent: !opaque, notes: [] });
    expect(back.pixels).toEqual(picture.pixels);
    const { channels, depth, hasProfile } = await sharp(path).metadata();
    expect([channels, depth, hasProfile]).toEqual([opaque ? 3 : 4, bits === 8 ? 'uchar' : 'ushort', true]);
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('comes back from one pixel, and from one row', async () => {
    for (const [width, height] of [
      [1, 1],
      [301, 1],
      [1, 301],
    ]) {
      const picture = samplePicture(16, false, width, height);
      const path = fresh(ending);
      await writePicture(path, picture);
      expect((await readPicture(path)).pixels).toEqual(picture.pixels);
    }
  });
});

it('of more than one block comes back whole, through memory and file', async () => {
  const picture = samplePicture(16, true, 1100, 1000);
  const path = fresh('.png');
  const { bytes } = await writePicture(path, picture, { level: 0 });
  expect(bytes).toBeGreaterThan(4 << 20);
  for (const route of ['memory', 'file'] as const) {
    const { pixels } = await readPicture(path, { route });
    expect(Buffer.compare(Buffer.from(pixels.buffer), Buffer.from(picture.pixels.buffer))).toBe(0);
    expect((await readMask(path, { route })).samples.length).toBe(1_100_000);
  }
});

it('drops alpha only where every pixel is full', async () => {
  for (const bits of [8, 16] as const) {
    for (const pixel of [0, 1, 2, 3, 11]) {
      const picture = samplePicture(bits, true, 4, 3);
      picture.pixels[4 * pixel + 3]--;
      const path = fresh('.png');
      expect((await writePicture(path, picture)).opaque).toBe(false);
      expect((await readPicture(path)).pixels).toEqual(picture.pixels);
    }
  }
});

it('reads samples where they lie in a larger block', async () => {
  const whole = samplePicture(8, false, 10, 20);
  const part = { ...whole, height: 5, pixels: whole.pixels.subarray(400, 600) };
  const path = fresh('.png');
  await writePicture(path, part);
  expect((await readPicture(path)).pixels).toEqual(Uint8Array.from(part.pixels));
});

// PNG Specification, 11.3.4.3: pixels per metre across and down, unit 1; 300 dpi is 11,811.
describe('density and colour of a PNG', () => {
  it.each([8, 16] as const)('%i bit: header, profile, density, pixels, end', async (bits) => {
    const path = fresh('.png');
    await writePicture(path, { ...samplePicture(bits, true), pixelsPerMm: { x: DENSITY, y: 10 } });
    const chunks = chunksOf(readFileSync(path));
    const types = [...new Set(chunks.map(({ type }) => type))];
    expect(types).toEqual(['IHDR', 'iCCP', 'pHYs', 'IDAT', 'IEND']);
    const phys = chunks[2].data;
    expect([phys.readUInt32BE(0), phys.readUInt32BE(4), phys[8]]).toEqual([11_811, 10_000, 1]);
    const { icc } = await sharp(path).metadata();
    expect(profileOf(icc as Buffer).kind).toBe('srgb');
  });

  it('without a density says only that pixels are square', async () => {
    const path = fresh('.png');
    await writePicture(path, { ...samplePicture(8, true), pixelsPerMm: undefined });
    const phys = chunksOf(readFileSync(path)).find(({ type }) => type === 'pHYs')?.data;
    expect(phys?.toString('hex')).toBe('000000010000000100');
    expect((await readPicture(path)).pixelsPerMm).toBeUndefined();
  });

  const pngcheck = readerOf('pngcheck');
  it.skipIf(!pngcheck)('is found right by pngcheck', async () => {
    for (const bits of [8, 16] as const)
      for (const opaque of [true, false]) {
        const path = fresh('.png');
        await writePicture(path, samplePicture(bits, opaque));
        const report = pngcheck?.('-v', path);
        expect(report).toMatch(/pHYs at offset \w+, length 9: 11811x11811 pixels\/meter \(300 dpi\)/);
        expect(report).toMatch(/No errors detected/);
      }
  });
});

// TIFF 6.0, section 8: XResolution 282, YResolution 283, ResolutionUnit 296 (2 inch); ICC profile 34675.
describe('density and colour of a TIFF', () => {
  it.each([8, 16] as const)('%i bit', async (bits) => {
    const path = fresh('.tif');
    await writePicture(path, { ...samplePicture(bits, true), pixelsPerMm: { x: DENSITY, y: 10 } });
    const bytes = readFileSync(path);
    expect(tiffNumber(bytes, 282)).toBeCloseTo(300, 3);
    expect(tiffNumber(bytes, 283)).toBeCloseTo(254, 3);
    expect(tiffNumber(bytes, 296)).toBe(2);
    const { icc } = await sharp(path).metadata();
    expect(profileOf(icc as Buffer).kind).toBe('srgb');
  });

  it('without a density states no unit', async () => {
    const path = fresh('.tif');
    await writePicture(path, { ...samplePicture(8, true), pixelsPerMm: undefined });
    expect(tiffNumber(readFileSync(path), 296)).toBe(1);
    expect((await readPicture(path)).pixelsPerMm).toBeUndefined();
  });

  const tiffinfo = readerOf('tiffinfo');
  it.skipIf(!tiffinfo)('is found right by tiffinfo', async () => {
    for (const bits of [8, 16] as const) {
      const path = fresh('.tif');
      await writePicture(path, samplePicture(bits, false));
      const report = tiffinfo?.(path);
      expect(report).toMatch(/Resolution: 300, 300 pixels\/inch/);
      expect(report).toMatch(/Extra Samples: 1<unassoc-alpha>/);
      expect(report).toMatch(/ICC Profile: <present>, \d+ bytes/);
      expect(report).not.toMatch(/warning|error/i);
    }
  });
});

it('makes a smaller file at a higher PNG level', async () => {
  const flat = samplePicture(8, true, 64, 64);
  for (let at = 0; at < flat.pixels.length; at++) flat.pixels[at] = at % 4 === 3 ? 255 : (at >> 9) * 16;
  const sizes = [];
  for (const level of [0, 1, 9]) sizes.push((await writePicture(fresh('.png'), flat, { level })).bytes);
  expect(sizes[0]).toBeGreaterThan(sizes[1]);
  expect(sizes[1]).toBeGreaterThan(sizes[2]);
});

describe('what is refused', () => {
  const good = samplePicture(8, true, 4, 4);

  it.each(['.webp', '.gif', '.bmp', ''])('the ending "%s"', async (ending) => {
    await expect(writePicture(fresh(ending), good)).rejects.toMatchObject({
      kind: 'output',
      expected: 'a name that ends in .png, .tif, .tiff or .jpg',
    });
  });

  it.each<[string, Partial<WritablePicture>]>([
    ['too few samples', { height: 5 }],
    ['no rows', { height: 0, pixels: new Uint8Array(0) }],
    ['half a pixel', { width: 4.5 }],
    ['another depth', { bits: 16 }],
    ['no density at all', { pixelsPerMm: 0 }],
    ['a density that is none', { pixelsPerMm: { x: Number.NaN, y: 1 } }],
  ])('%s', async (_, change) => {
    const path = fresh('.png');
    await expect(writePicture(path, { ...good, ...change })).rejects.toMatchObject({
      kind: 'usage',
      subject: path,
    });
    expect(readdirSync(folder)).not.toContain(path);
  });

  it.each([-1, 10, 1.5, Number.NaN])('PNG level %d', async (level) => {
    await expect(writePicture(fresh('.png'), good, { level })).rejects.toMatchObject({ kind: 'usage' });
  });
});
