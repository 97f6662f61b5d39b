import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readPicture } from './index.ts';
import { filer, testFolder } from './testing/folder.ts';
import { densityChunk, highByteFirst, pngChunk, pngFile } from './testing/png-file.ts';
import { type TiffTag, tiffFile } from './testing/tiff-file.ts';

const file = filer(testFolder());
const ROUTES = ['memory', 'file'] as const;
const DEEP = [0, 1, 255, 256, 257, 12_345, 32_768, 65_279, 65_534, 65_535, 40_000, 7];

async function pixelsOf(bytes: Buffer, ending?: string): Promise<number[]> {
  return [...(await readPicture(file(bytes, ending))).pixels];
}

describe('kinds of PNG', () => {
  it('keeps RGB to the last bit and calls it opaque', async () => {
    const rows = Buffer.from([0, 1, 2, 253, 254, 255, 128, 127, 3, 9, 8, 7]);
    const picture = await readPicture(file(pngFile({ width: 2, height: 2, depth: 8, colour: 2, rows })));
    expect([...picture.pixels]).toEqual([0, 1, 2, 255, 253, 254, 255, 255, 128, 127, 3, 255, 9, 8, 7, 255]);
    expect(picture).toMatchObject({ width: 2, height: 2, bits: 8, transparent: false, notes: [] });
    expect(picture.pixels.buffer).toBeInstanceOf(SharedArrayBuffer);
  });

  it('keeps the colour under full transparency', async () => {
    const rows = Buffer.from([10, 20, 30, 0, 200, 100, 50, 1]);
    expect(await pixelsOf(pngFile({ width: 2, height: 1, depth: 8, colour: 6, rows }))).toEqual([...rows]);
  });

  it('spreads grey of 1, 2, 4 and 8 bit over 0..255', async () => {
    const grey = (depth: 1 | 2 | 4 | 8, width: number, byte: number) =>
      pixelsOf(pngFile({ width, height: 1, depth, colour: 0, rows: Buffer.from([byte]) }));
    const asRgba = (...levels: number[]) => levels.flatMap((level) => [level, level, level, 255]);
    expect(await grey(1, 4, 0b1010_0000)).toEqual(asRgba(255, 0, 255, 0));
    expect(await grey(2, 4, 0b0001_1011)).toEqual(asRgba(0, 85, 170, 255));
    expect(await grey(4, 2, 0x1f)).toEqual(asRgba(17, 255));
    expect(await grey(8, 1, 77)).toEqual(asRgba(77));
  });

  it('reads grey with alpha, and says that it is grey', async () => {
    const rows = Buffer.from([10, 20, 30, 40]);
    const picture = await readPicture(file(pngFile({ width: 2, height: 1, depth: 8, colour: 4, rows })));
    expect([...picture.pixels]).toEqual([10, 10, 10, 20, 30, 30, 30, 40]);
    expect(picture).toMatchObject({ transparent: true, notes: ['grey was expanded to RGB'] });
  });

  it('expands a palette with transparency', async () => {
    const chunks = [
      pngChunk('PLTE', Buffer.from([1, 2, 3, 10, 20, 30, 100, 110, 120, 250, 251, 252])),
      pngChunk('tRNS', Buffer.from([0, 128])),
    ];
    const rows = Buffer.from([0b0001_1011]);
    const picture = await readPicture(
      file(pngFile({ width: 4, height: 1, depth: 2, colour: 3, rows, chunks })),
    );
    expect([...picture.pixels]).toEqual([
      1, 2, 3, 0, 10, 20, 30, 128, 100, 110, 120, 255, 250, 251, 252, 255,
    ]);
    expect(picture).toMatchObject({ transparent: true, notes: ['its palette was expanded'] });
  });

  it.each(ROUTES)('keeps 16 bit to the last bit, through %s', async (route) => {
    const read = async (width: number, colour: 0 | 2 | 4 | 6) => {
      const path = file(pngFile({ width, height: 1, depth: 16, colour, rows: highByteFirst(DEEP) }));
      const picture = await readPicture(path, { route });
      expect(picture.bits).toBe(16);
      expect(picture.pixels).toBeInstanceOf(Uint16Array);
      expect(picture.pixels.buffer).toBeInstanceOf(SharedArrayBuffer);
      return [...picture.pixels];
    };
    const inTurn = (size: number) =>
      Array.from({ length: DEEP.length / size }, (_, index) => DEEP.slice(index * size, (index + 1) * size));
    expect(await read(3, 6)).toEqual(DEEP);
    expect(await read(4, 2)).toEqual(inTurn(3).flatMap((rgb) => [...rgb, 65_535]));
    expect(await read(6, 4)).toEqual(inTurn(2).flatMap(([grey, alpha]) => [grey, grey, grey, alpha]));
    expect(await read(12, 0)).toEqual(DEEP.flatMap((grey) => [grey, grey, grey, 65_535]));
  });

  it('takes the still picture of an animated PNG and says so', async () => {
    const chunks = [pngChunk('acTL', Buffer.from([0, 0, 0, 2, 0, 0, 0, 0]))];
    const rows = Buffer.from([1, 2, 3]);
    const path = file(pngFile({ width: 1, height: 1, depth: 8, colour: 2, rows, chunks }));
    expect((await readPicture(path)).notes).toEqual(['it is animated; its still picture was read']);
  });

  it('says which statements about colour it did not follow', async () => {
    const notes = async (...chunks: Buffer[]) => {
      const rows = Buffer.from([1, 2, 3]);
      const path = file(pngFile({ width: 1, height: 1, depth: 8, colour: 2, rows, chunks }));
      return (await readPicture(path)).notes.join();
    };
    const gamma = (value: number) => {
      const data = Buffer.alloc(4);
      data.writeUInt32BE(value);
      return pngChunk('gAMA', data);
    };
    expect(await notes(gamma(100_000))).toMatch(/gamma \(1\/1\.00\) was not applied/);
    expect(await notes(gamma(45_455))).toBe('');
    expect(await notes(gamma(100_000), pngChunk('sRGB', Buffer.from([0])))).toBe('');
    // ITU-T H.273: 12 are the primaries of Display P3, 1 those of sRGB, 13 the curve of sRGB.
    expect(await notes(pngChunk('cICP', Buffer.from([12, 13, 0, 1])))).toMatch(/colour code \(12, 13\)/);
    expect(await notes(pngChunk('cICP', Buffer.from([1, 13, 0, 1])))).toBe('');
  });
});

describe('kinds of TIFF', () => {
  const rgb = {
    width: 2,
    height: 1,
    bits: [8, 8, 8],
    photometric: 2,
    strip: Buffer.from([1, 2, 3, 4, 5, 6]),
  };

  it('reads either order of bytes, 8 and 16 bit', async () => {
    expect(await pixelsOf(tiffFile(rgb), '.tif')).toEqual([1, 2, 3, 255, 4, 5, 6, 255]);
    expect(await pixelsOf(tiffFile({ ...rgb, bigEndian: true }), '.tif')).toEqual([
      1, 2, 3, 255, 4, 5, 6, 255,
    ]);
    const strip = highByteFirst([1000, 2000, 65_535, 0, 1, 40_000]);
    const deep = tiffFile({ ...rgb, bits: [16, 16, 16], strip, bigEndian: true });
    expect(await pixelsOf(deep, '.tif')).toEqual([1000, 2000, 65_535, 65_535, 0, 1, 40_000, 65_535]);
  });

  it('reads BigTIFF and its density', async () => {
    const raw = { width: 2, height: 1, channels: 3 } as const;
    const image = sharp(rgb.strip, { raw }).tiff({ compression: 'none', bigtiff: true, xres: 10, yres: 10 });
    const bytes = await image.toBuffer();
    expect(bytes.toString('latin1', 0, 4)).toBe('II+\0');
    const picture = await readPicture(file(bytes, '.tif'));
    expect([...picture.pixels]).toEqual([1, 2, 3, 255, 4, 5, 6, 255]);
    expect(picture.pixelsPerMm).toBeCloseTo(10, 6);
  });

  it('reads grey where 0 is white', async () => {
    const grey = tiffFile({ width: 2, height: 1, bits: [8], photometric: 0, strip: Buffer.from([0, 100]) });
    expect(await pixelsOf(grey, '.tif')).toEqual([255, 255, 255, 255, 155, 155, 155, 255]);
  });

  // TIFF 6.0, section 18: ExtraSamples 0 is data of no stated meaning, 1 premultiplied alpha, 2 straight alpha.
  it('tells transparency from data that only lies beside', async () => {
    const read = (extra: number) => {
      const strip = Buffer.from([100, 50, 20, 128, 10, 20, 30, 255]);
      const tags: TiffTag[] = [[338, 3, [extra]]];
      return readPicture(
        file(tiffFile({ width: 2, height: 1, bits: [8, 8, 8, 8], photometric: 2, strip, tags }), '.tif'),
      );
    };
    expect([...(await read(2)).pixels]).toEqual([100, 50, 20, 128, 10, 20, 30, 255]);
    const data = await read(0);
    expect([...data.pixels]).toEqual([100, 50, 20, 255, 10, 20, 30, 255]);
    expect(data.notes).toEqual(['its extra channel is not transparency and was left out']);
    const straight = [...(await read(1)).pixels];
    [100, 50, 20].forEach((value, index) => {
      expect(Math.abs(straight[index] - (value * 255) / 128)).toBeLessThanOrEqual(1);
    });
    expect(straight.slice(3)).toEqual([128, 10, 20, 30, 255]);
  });

  it('takes the first of several pages and says so', async () => {
    const pages = Buffer.from([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    const raw = { width: 2, height: 2, channels: 3, pageHeight: 1 } as const;
    const bytes = await sharp(pages, { raw }).tiff({ compression: 'none' }).toBuffer();
    const picture = await readPicture(file(bytes, '.tif'));
    expect([...picture.pixels]).toEqual([1, 2, 3, 255, 4, 5, 6, 255]);
    expect(picture.notes).toEqual(['of its 2 pages the first was read']);
  });

  it('refuses what would be read wrongly', async () => {
    const refused = (parts: object, tags: TiffTag[] = []) =>
      expect(readPicture(file(tiffFile({ ...rgb, ...parts, tags }), '.tif'))).rejects;
    const four = Buffer.alloc(4);
    await refused({ width: 1, bits: [32], photometric: 1, strip: four }, [[339, 3, [3]]]).toThrow(
      /8 or 16 bit/,
    );
    await refused({ width: 1, bits: [16], photometric: 1, strip: four }, [[339, 3, [2]]]).toThrow(
      /8 or 16 bit/,
    );
    await refused({ width: 1, bits: [8, 8, 8, 8, 8], strip: Buffer.alloc(5) }).toThrow(/5 channels/);
    await refused({ width: 1, bits: [8, 8, 8, 8, 8, 8, 8], strip: Buffer.alloc(7) }).toThrow(/7 channels/);
    await refused({}, [[254, 4, [1]]]).toThrow(/reduced preview/);
    await refused({}, [[50_706, 1, [1, 4, 0, 0]]]).toThrow(/raw camera file/);
  });
});

describe('JPEG and WebP', () => {
  it('reads them close to what went in', async () => {
    const raw = { width: 16, height: 16, channels: 3 } as const;
    const image = sharp(Buffer.alloc(768, 100), { raw });
    for (const [bytes, ending] of [
      [await image.jpeg().toBuffer(), '.jpg'],
      [await image.jpeg({ progressive: true }).toBuffer(), '.jpg'],
      [await image.webp().toBuffer(), '.webp'],
    ] as const) {
      const { pixels, width, height } = await readPicture(file(bytes, ending));
      expect([width, height]).toEqual([16, 16]);
      for (let at = 0; at < pixels.length; at++) {
        expect(Math.abs(pixels[at] - (at % 4 === 3 ? 255 : 100))).toBeLessThanOrEqual(2);
      }
    }
  });

  it('takes the first frame of an animated WebP', async () => {
    const frames = Buffer.alloc(2 * 64 * 3)
      .fill(50, 0, 192)
      .fill(200, 192);
    const raw = { width: 8, height: 16, channels: 3, pageHeight: 8 } as const;
    const bytes = await sharp(frames, { raw }).webp({ lossless: true }).toBuffer();
    const picture = await readPicture(file(bytes, '.webp'));
    expect(picture).toMatchObject({ width: 8, height: 8, notes: ['of its 2 frames the first was read'] });
    expect(picture.pixels[0]).toBe(50);
  });

  it('goes by the bytes of a file and not by its name', async () => {
    const png = pngFile({ width: 1, height: 1, depth: 8, colour: 2, rows: Buffer.from([1, 2, 3]) });
    expect(await pixelsOf(png, '.jpg')).toEqual([1, 2, 3, 255]);
    expect(await pixelsOf(png, ' [2] é 50%.png')).toEqual([1, 2, 3, 255]);
    expect(await pixelsOf(png, '.png[page=1]')).toEqual([1, 2, 3, 255]);
  });
});

// CIPA DC-008 (EXIF), tag 274: where row 0 and column 0 are on the upright picture.
const ORIENTATIONS = [
  { orientation: 1, row: 'top', column: 'left' },
  { orientation: 2, row: 'top', column: 'right' },
  { orientation: 3, row: 'bottom', column: 'right' },
  { orientation: 4, row: 'bottom', column: 'left' },
  { orientation: 5, row: 'left', column: 'top' },
  { orientation: 6, row: 'right', column: 'top' },
  { orientation: 7, row: 'right', column: 'bottom' },
  { orientation: 8, row: 'left', column: 'bottom' },
];

describe('EXIF orientation', () => {
  const [width, height] = [3, 2];
  const stored = Buffer.from(Array.from({ length: width * height * 3 }, (_, index) => index * 10));

  function upright(row: string, column: string): number[] {
    const turned = row === 'left' || row === 'right';
    const [w, h] = turned ? [height, width] : [width, height];
    const pixels = new Array<number>(w * h * 4).fill(255);
    const place = (index: number, count: number, side: string) =>
      side === 'top' || side === 'left' ? index : count - 1 - index;
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        const along = { row: place(y, height, row), column: place(x, width, column) };
        const [X, Y] = turned ? [along.row, along.column] : [along.column, along.row];
        for (let c = 0; c < 3; c++) pixels[(Y * w + X) * 4 + c] = stored[(y * width + x) * 3 + c];
      }
    return pixels;
  }

  it.each(ORIENTATIONS)(
    '$orientation: row 0 is $row, column 0 is $column',
    async ({ orientation, row, column }) => {
      const tags: TiffTag[] = [[274, 3, [orientation]]];
      const tiff = tiffFile({ width, height, bits: [8, 8, 8], photometric: 2, strip: stored, tags });
      const exif = pngChunk('eXIf', tiff.subarray(0, tiff.length - stored.length));
      const png = pngFile({ width, height, depth: 8, colour: 2, rows: stored, chunks: [exif] });
      for (const path of [file(tiff, '.tif'), file(png)])
        for (const route of ROUTES) {
          const picture = await readPicture(path, { route });
          expect([...picture.pixels]).toEqual(upright(row, column));
          expect(picture.width).toBe(orientation > 4 ? height : width);
          expect(picture.notes).toEqual(
            orientation === 1 ? [] : [`turned as its EXIF orientation (${orientation}) says`],
          );
        }
    },
  );
});

describe('density', () => {
  const pixel = { width: 1, height: 1 };
  const png = (...chunks: Buffer[]) =>
    readPicture(file(pngFile({ ...pixel, depth: 8, colour: 2, rows: Buffer.from([1, 2, 3]), chunks })));
  const tiff = (unit: number, across: [number, number], down = across) => {
    const tags: TiffTag[] = [
      [282, 5, [across]],
      [283, 5, [down]],
      [296, 3, [unit]],
    ];
    const strip = Buffer.from([1, 2, 3]);
    return readPicture(file(tiffFile({ ...pixel, bits: [8, 8, 8], photometric: 2, strip, tags }), '.tif'));
  };

  it('comes from pHYs, exactly, and from nowhere else', async () => {
    expect((await png(densityChunk(11_811, 11_811, 1))).pixelsPerMm).toBe(11.811);
    expect((await png(densityChunk(1000, 1000, 1))).pixelsPerMm).toBe(1);
    expect((await png(densityChunk(1, 1, 0))).pixelsPerMm).toBeUndefined();
    expect((await png(densityChunk(11_811, 11_811, 0))).pixelsPerMm).toBeUndefined();
    expect((await png()).pixelsPerMm).toBeUndefined();
  });

  it('that differs across and down is left out with a note', async () => {
    const picture = await png(densityChunk(11_811, 5906, 1));
    expect(picture.pixelsPerMm).toBeUndefined();
    expect(picture.notes.join()).toMatch(/300 dpi across, 150\.01 down/);
    expect((await png(densityChunk(11_811, 11_810, 1))).pixelsPerMm).toBeCloseTo(11.8105, 6);
  });

  it('comes from the tags of a TIFF, per inch and per cm', async () => {
    expect((await tiff(2, [300, 1])).pixelsPerMm).toBeCloseTo(300 / 25.4, 12);
    expect((await tiff(3, [10, 1])).pixelsPerMm).toBeCloseTo(1, 12);
    expect((await tiff(2, [2_999_978, 10_000])).pixelsPerMm).toBeCloseTo(299.9978 / 25.4, 12);
    expect((await tiff(1, [300, 1])).pixelsPerMm).toBeUndefined();
    expect((await tiff(2, [300, 0])).pixelsPerMm).toBeUndefined();
    expect((await tiff(2, [1, 1])).pixelsPerMm).toBeUndefined();
  });

  it('comes from JFIF, else from EXIF', async () => {
    const image = sharp({ create: { width: 8, height: 8, channels: 3, background: '#888' } });
    const plain = await image.clone().jpeg().toBuffer();
    // ITU-T T.871, 10.1: APP0 with version 1.02, unit, densities and no thumbnail, right after SOI.
    const jfif = (unit: number, value: number) => {
      const header = Buffer.from([0xff, 0xe0, 0, 16, ...Buffer.from('JFIF\0'), 1, 2, unit, 0, 0, 0, 0, 0, 0]);
      header.writeUInt16BE(value, 12);
      header.writeUInt16BE(value, 14);
      return readPicture(file(Buffer.concat([plain.subarray(0, 2), header, plain.subarray(2)]), '.jpg'));
    };
    expect((await jfif(1, 300)).pixelsPerMm).toBeCloseTo(300 / 25.4, 12);
    expect((await jfif(2, 100)).pixelsPerMm).toBeCloseTo(10, 12);
    expect((await jfif(0, 1)).pixelsPerMm).toBeUndefined();
    expect((await jfif(1, 1)).pixelsPerMm).toBeUndefined();
    const webp = await image.clone().withDensity(254).webp().toBuffer();
    expect((await readPicture(file(webp, '.webp'))).pixelsPerMm).toBeCloseTo(10, 6);
  });
});

describe('the limit of pixels', () => {
  const png = () => file(pngFile({ width: 4, height: 3, depth: 8, colour: 0, rows: new Uint8Array(12) }));

  it('lets pass what it allows and nothing more', async () => {
    expect((await readPicture(png(), { maxPixels: 12 })).width).toBe(4);
    await expect(readPicture(png(), { maxPixels: 11 })).rejects.toMatchObject({
      kind: 'input',
      received: expect.stringContaining('4 x 3 px'),
      details: { width: 4, height: 3, maxPixels: 11 },
    });
    await expect(readPicture(png(), { maxPixels: Number.NaN })).rejects.toMatchObject({ kind: 'usage' });
  });
});

it('reads a file again after it was replaced', async () => {
  const path = file(pngFile({ width: 1, height: 1, depth: 8, colour: 2, rows: Buffer.from([1, 2, 3]) }));
  await readPicture(path);
  const { writeFileSync } = await import('node:fs');
  writeFileSync(path, pngFile({ width: 1, height: 1, depth: 8, colour: 2, rows: Buffer.from([7, 8, 9]) }));
  expect([...(await readPicture(path)).pixels]).toEqual([7, 8, 9, 255]);
});
