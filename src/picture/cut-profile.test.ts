import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { readPicture, writePicture } from './index.ts';
import { filer, testFolder } from './testing/folder.ts';
import { type TiffTag, tiffFile } from './testing/tiff-file.ts';

const folder = testFolder();
const file = filer(folder);

const [WIDTH, HEIGHT] = [20, 15];
/** Noise, so that other colours show in every pixel. */
const samples = Buffer.alloc(WIDTH * HEIGHT * 3);
for (let index = 0, seed = 1; index < samples.length; index++) {
  seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
  samples[index] = seed >>> 24;
}
const PROFILE = 34_675;
const UNDEFINED = 7;
const NOTE = /^its colour profile ("unnamed" )?cannot be used; the colours were taken as sRGB$/;

let profile: Buffer;
const wholes: Record<string, Buffer> = {};

beforeAll(async () => {
  const raw = { width: WIDTH, height: HEIGHT, channels: 3 } as const;
  const make = (encode: (image: Sharp) => Sharp) =>
    encode(sharp(samples, { raw }).withIccProfile('p3')).toBuffer();
  wholes.png = await make((image) => image.png());
  wholes.jpeg = await make((image) => image.jpeg());
  wholes.webp = await make((image) => image.webp());
  wholes.lossless = await make((image) => image.webp({ lossless: true }));
  wholes.tiff = await make((image) => image.tiff({ compression: 'none' }));
  wholes.lzw = await make((image) => image.tiff({ compression: 'lzw' }));
  wholes.bigTiff = await make((image) => image.tiff({ bigtiff: true }));
  profile = (await sharp(wholes.png).metadata()).icc as Buffer;
  wholes.profileLast = profileLast(profile);
  const own = join(folder, 'own.tif');
  await writePicture(own, { pixels: new Uint8Array(WIDTH * HEIGHT * 4), width: WIDTH, height: HEIGHT });
  wholes.own = readFileSync(own);
});

/** A TIFF whose profile stands behind everything else. */
function profileLast(bytes: Buffer, claimed = bytes.length): Buffer {
  const tiff = tiffWith([PROFILE, UNDEFINED, bytes.subarray(0, 8)]);
  const entry = entryOf(tiff);
  tiff.writeUInt32LE(claimed, entry + 4);
  tiff.writeUInt32LE(tiff.length, entry + 8);
  return Buffer.concat([tiff, bytes]);
}

function tiffWith(tag: TiffTag): Buffer {
  const bits = [8, 8, 8];
  return tiffFile({ width: WIDTH, height: HEIGHT, bits, photometric: 2, strip: samples, tags: [tag] });
}

/** Where the entry of the profile stands in a little-endian TIFF. */
function entryOf(tiff: Buffer): number {
  const head = Buffer.alloc(4);
  head.writeUInt16LE(PROFILE, 0);
  head.writeUInt16LE(UNDEFINED, 2);
  return tiff.indexOf(head);
}

const NAMES = ['png', 'jpeg', 'webp', 'lossless', 'tiff', 'lzw', 'bigTiff', 'profileLast', 'own'];

describe('a picture with a profile', () => {
  it.each(NAMES)('%s is refused or right wherever it is cut', async (name) => {
    const whole = wholes[name];
    const { pixels } = await readPicture(file(whole));
    const path = join(folder, 'cut');
    const step = Math.max(1, Math.floor(whole.length / 250));
    let refused = 0;
    for (let length = 1; length < whole.length; length += step) {
      writeFileSync(path, whole.subarray(0, length));
      const read = await readPicture(path).catch((error) => error);
      if (read instanceof Error) {
        expect(read).toMatchObject({ name: 'Fault', kind: 'input', subject: path });
        refused++;
      } else expect(read.pixels, `${name} cut to ${length} bytes`).toEqual(pixels);
    }
    expect(refused).toBeGreaterThan(200);
  });
});

describe('a TIFF that points beyond its end', () => {
  const changed = (change: (bytes: Buffer, entry: number) => void) => {
    const bytes = Buffer.from(wholes.profileLast);
    change(bytes, entryOf(bytes));
    return file(bytes, '.tif');
  };

  it('is refused as cut short', async () => {
    const paths = [
      changed((bytes, entry) => bytes.writeUInt32LE(profile.length + 1, entry + 4)),
      changed((bytes, entry) => bytes.writeUInt32LE(2 ** 32 - 1, entry + 4)),
      changed((bytes, entry) => bytes.writeUInt32LE(bytes.length - 3, entry + 8)),
      changed((bytes, entry) => bytes.writeUInt32LE(2 ** 32 - 1, entry + 8)),
      file(profileLast(Buffer.alloc(0), 500), '.tif'),
    ];
    for (const path of paths) {
      await expect(readPicture(path)).rejects.toMatchObject({
        kind: 'input',
        received: 'a TIFF file that is cut short or damaged',
      });
    }
  });

  it('passes where only a private tag does', async () => {
    const tiff = tiffWith([40_000, UNDEFINED, Buffer.alloc(8)]);
    const head = Buffer.alloc(4);
    head.writeUInt16LE(40_000, 0);
    head.writeUInt16LE(UNDEFINED, 2);
    tiff.writeUInt32LE(2 ** 31, tiff.indexOf(head) + 8);
    expect((await readPicture(file(tiff, '.tif'))).width).toBe(WIDTH);
  });
});

describe('a profile that is there and not understood', () => {
  it('is told of a TIFF', async () => {
    const rubbish = file(tiffWith([PROFILE, UNDEFINED, Buffer.alloc(300, 1)]), '.tif');
    expect((await readPicture(rubbish)).notes.join()).toMatch(NOTE);
  });

  it('is told of a JPEG', async () => {
    const bytes = Buffer.from(wholes.jpeg);
    bytes.fill(1, bytes.indexOf('acsp'), bytes.indexOf('acsp') + 4);
    expect((await readPicture(file(bytes, '.jpg'))).notes.join()).toMatch(NOTE);
  });

  it('is told of a WebP that says it has one', async () => {
    const bytes = Buffer.from(wholes.webp);
    bytes.write('XXXX', bytes.indexOf('ICCP'), 'latin1');
    const read = await readPicture(file(bytes, '.webp')).catch((error) => error);
    if (read instanceof Error) expect(read).toMatchObject({ kind: 'input' });
    else expect(read.notes.join()).toMatch(NOTE);
  });
});
