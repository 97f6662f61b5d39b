import { chmodSync, mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Fault } from '../fault.ts';
import { decode } from './decode.ts';
import { readHeader } from './header.ts';
import { readMask, readPicture } from './index.ts';
import { filer, socketIn, testFolder } from './testing/folder.ts';
import { withoutRoot } from './testing/identity.ts';
import { pngFile, pngThatClaims, profileChunk } from './testing/png-file.ts';
import { tiffFile } from './testing/tiff-file.ts';

const folder = testFolder();
const file = filer(folder);

/** Words of the engine and its libraries, which mean nothing to the user. */
const JARGON = /vips|libpng|sharp|uchar|ushort|buffer|scanline|colourspace|ENO|EACC|EIS/i;

/** The Fault of a file that is refused alike as a picture and as a mask, in words of the trade. */
async function refusal(path: string): Promise<Fault> {
  const faults = await Promise.all(
    [readPicture, readMask].map((read) =>
      read(path).then(
        () => {
          throw new Error(`${path} was read`);
        },
        (error: Fault) => error,
      ),
    ),
  );
  expect(faults[1].message).toBe(faults[0].message);
  expect(faults[0]).toMatchObject({ name: 'Fault', kind: 'input', subject: path });
  expect(faults[0].remedy).toBeTruthy();
  expect(faults[0].message.replace(path, '')).not.toMatch(JARGON);
  return faults[0];
}

describe('what is no picture', () => {
  it('says so of each sort', async () => {
    const sorts: [string, RegExp][] = [
      [join(folder, 'nowhere.png'), /no file of that name/],
      [join(file(Buffer.from('x')), 'inside.png'), /through a file as if it were a folder/],
      [folder, /a folder/],
      [await socketIn(folder, 'socket.png'), /something that is no file/],
      [file(Buffer.alloc(0)), /empty file/],
      [file(Buffer.from('a list of things\n')), /a text file/],
      [file(Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>')), /an SVG drawing/],
      [file(Buffer.from('<?xml version="1.0"?><!-- x --><svg width="9" height="9"/>')), /an SVG drawing/],
      [file(Buffer.from([0, 1, 2, 3, 200])), /a file of another kind/],
      [file(Buffer.from('%PDF-1.7\n')), /a PDF document/],
      [file(Buffer.from('BM\0\0\0\0')), /a BMP picture/],
      [file(Buffer.from([0x89])), /a file of another kind/],
    ];
    for (const [path, what] of sorts) expect((await refusal(path)).received).toMatch(what);
  });

  it('refuses pictures of formats that the engine would take', async () => {
    const image = sharp({ create: { width: 8, height: 8, channels: 3, background: '#888' } });
    expect((await refusal(file(await image.clone().gif().toBuffer()))).received).toBe('a GIF picture');
    expect((await refusal(file(await image.clone().avif().toBuffer()))).received).toBe(
      'an HEIF or AVIF picture',
    );
    const fault = await refusal(file(await image.clone().gif().toBuffer()));
    expect(fault.expected).toBe('a whole picture (PNG, JPEG, WebP or TIFF)');
  });

  it('says that a file may not be read', async (context) => {
    const path = file(pngFile({ width: 1, height: 1, depth: 8, colour: 0, rows: new Uint8Array(1) }));
    chmodSync(path, 0);
    const ran = await withoutRoot(async () => {
      expect((await refusal(path)).received).toBe('no permission');
    });
    if (!ran) context.skip();
  });
});

describe('what claims too many pixels', () => {
  it('is refused from its header, whatever its format', async () => {
    const jpeg = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#888' } })
      .jpeg()
      .toBuffer();
    // Frame header: marker, length, bits, then height and width (ITU-T T.81, B.2.2).
    const frame = jpeg.indexOf(Buffer.from([0xff, 0xc0]));
    jpeg.writeUInt16BE(60_000, frame + 5);
    jpeg.writeUInt16BE(60_000, frame + 7);
    const bits = [8, 8, 8];
    const tiff = tiffFile({ width: 60_000, height: 60_000, bits, photometric: 2, strip: Buffer.alloc(3) });
    for (const path of [file(pngThatClaims(60_000, 60_000)), file(jpeg), file(tiff)]) {
      const fault = await refusal(path);
      expect(fault.received).toBe('one that claims 60000 x 60000 px (3600 megapixels)');
      expect(fault.expected).toBe('a picture of at most 200 megapixels');
    }
    expect((await refusal(file(pngThatClaims(2 ** 31 - 1, 2 ** 31 - 1)))).received).toMatch(/2147483647 x/);
  });

  it('costs no memory', () => {
    const before = process.memoryUsage().rss;
    return refusal(file(pngThatClaims(60_000, 60_000))).then(() => {
      expect(process.memoryUsage().rss - before).toBeLessThan(100e6);
    });
  });
});

describe('what is cut short', () => {
  const side = 40;
  const samples = Buffer.alloc(side * side * 4);
  const wholes: Record<string, Buffer> = {};

  beforeAll(async () => {
    // Noise, so that every part of a file carries some of the picture.
    for (let index = 0, seed = 1; index < samples.length; index++) {
      seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
      samples[index] = seed >>> 24;
    }
    const raw = { width: side, height: side, channels: 4 } as const;
    const make = (encode: (image: Sharp) => Sharp) => encode(sharp(samples, { raw })).toBuffer();
    wholes.png = await make((image) => image.png());
    wholes.interlaced = await make((image) => image.png({ progressive: true }));
    wholes.jpeg = await make((image) => image.jpeg());
    wholes.progressive = await make((image) => image.jpeg({ progressive: true }));
    wholes.lossless = await make((image) => image.webp({ lossless: true }));
    wholes.webp = await make((image) => image.webp());
    wholes.lzw = await make((image) => image.tiff({ compression: 'lzw' }));
    const bits = [8, 8, 8, 8];
    wholes.tiff = tiffFile({
      width: side,
      height: side,
      bits,
      photometric: 2,
      strip: samples,
      tags: [[338, 3, [2]]],
    });
  });

  it.each(['png', 'interlaced', 'jpeg', 'progressive', 'lossless', 'webp', 'lzw', 'tiff'])(
    '%s is refused at every length that was tried, through memory and file',
    async (name) => {
      const whole = wholes[name];
      expect((await readPicture(file(whole))).width).toBe(side);
      const ends = Array.from({ length: 16 }, (_, index) => whole.length - 1 - index);
      const spread = Array.from(
        { length: 24 },
        (_, index) => Math.ceil((whole.length * (index + 1)) / 25) - 1,
      );
      for (const length of [...ends, ...spread]) {
        const path = file(whole.subarray(0, length));
        const fault = await refusal(path);
        if (length >= 12) expect(fault.received).toMatch(/cut short or damaged/);
        await expect(readPicture(path, { route: 'file' })).rejects.toMatchObject({ kind: 'input' });
      }
    },
  );

  it('refuses a PNG with a wrong byte in its pixels', async () => {
    const broken = Buffer.from(wholes.png);
    broken[broken.length >> 1] ^= 1;
    expect((await refusal(file(broken))).received).toMatch(/a PNG file that is cut short or damaged/);
  });

  it('lets pass what follows the end of a PNG', async () => {
    const longer = Buffer.concat([wholes.png, Buffer.from('made by hand')]);
    expect((await readPicture(file(longer))).width).toBe(side);
  });
});

it('lets pass a PNG whose profile is rubbish, with a note', async () => {
  const chunks = [profileChunk(Buffer.alloc(300, 1))];
  const rows = Buffer.from([1, 2, 3]);
  const picture = await readPicture(
    file(pngFile({ width: 1, height: 1, depth: 8, colour: 2, rows, chunks })),
  );
  expect([...picture.pixels]).toEqual([1, 2, 3, 255]);
  expect(picture.notes).toEqual(['its colour profile cannot be used; the colours were taken as sRGB']);
});

it('leaves nothing in the folder for temporary files', async () => {
  const own = join(folder, 'tmp');
  mkdirSync(own);
  const before = process.env.TMPDIR;
  process.env.TMPDIR = own;
  try {
    const rows = new Uint8Array(64);
    const good = file(pngFile({ width: 8, height: 8, depth: 8, colour: 0, rows }));
    const pieces = decode(await readHeader(good), 'file');
    await pieces.next();
    const [spill] = readdirSync(own);
    expect(readdirSync(join(own, spill))).toEqual(['samples.v']);
    expect(statSync(join(own, spill)).mode & 0o77).toBe(0);
    await pieces.next();
    expect(readdirSync(own)).toEqual([]);
    // Given up half-way, by a caller that fails.
    const abandoned = decode(await readHeader(good), 'file');
    await abandoned.next();
    await abandoned.return(undefined);
    expect(readdirSync(own)).toEqual([]);
    const bad = join(folder, 'bad.png');
    writeFileSync(bad, pngFile({ width: 8, height: 8, depth: 8, colour: 0, rows: new Uint8Array(8) }));
    await expect(readPicture(bad, { route: 'file' })).rejects.toMatchObject({ kind: 'input' });
    expect(readdirSync(own)).toEqual([]);
    process.env.TMPDIR = join(folder, 'nowhere');
    expect((await readPicture(good, { route: 'file' })).width).toBe(8);
  } finally {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
  }
});
