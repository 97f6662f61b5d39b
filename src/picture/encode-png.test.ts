import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateSync, inflateSync } from 'node:zlib';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { buildSync } from 'esbuild';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { encodePng } from './encode-png.ts';
import type { Samples } from './picture.ts';
import { joinAdler32, layRows } from './png-rows.ts';
import { testFolder } from './testing/folder.ts';
import { chunksOf, highByteFirst } from './testing/png-file.ts';

const folder = testFolder();
/** More than two pieces. */
const WIDTH = 700;
const HEIGHT = 1100;

/** A grain over slopes, so that there are both runs and noise; alpha full or mixed. */
function grain<T extends Samples>(pixels: T, opaque: boolean): T {
  const top = 2 ** (8 * pixels.BYTES_PER_ELEMENT) - 1;
  for (let at = 0; at < pixels.length; at++) {
    const noise = ((at * 2_654_435_761) >>> 24) % 24;
    pixels[at] = at % 4 === 3 && opaque ? top : (at >> 6) + (at % 3200 < 1600 ? noise : 0);
  }
  return pixels;
}

async function encode(pixels: Samples, opaque: boolean, level: number): Promise<Buffer> {
  const path = join(folder, 'picture.png');
  writeFileSync(path, '');
  const profile = Buffer.from('no profile');
  await encodePng(path, { pixels, width: WIDTH, height: HEIGHT, opaque, density: undefined, profile, level });
  return readFileSync(path);
}

const streamIn = (file: Buffer) =>
  Buffer.concat(chunksOf(file).flatMap(({ type, data }) => (type === 'IDAT' ? [data] : [])));

/** Undoes the filters Sub and Up as PNG Specification, 9.2, has them. */
function unfiltered(rows: Buffer, pixelBytes: number): Buffer {
  const stride = rows.length / HEIGHT;
  const plain = Buffer.alloc(rows.length - HEIGHT);
  for (let y = 0; y < HEIGHT; y++) {
    const filter = rows[y * stride];
    if (filter !== 1 && filter !== 2) throw new Error(`row ${y} has filter ${filter}`);
    for (let k = 0; k < stride - 1; k++) {
      const to = y * (stride - 1) + k;
      const isInside = filter === 1 ? k >= pixelBytes : y > 0;
      const before = isInside ? plain[to - (filter === 1 ? pixelBytes : stride - 1)] : 0;
      plain[to] = rows[y * stride + 1 + k] + before;
    }
  }
  return plain;
}

const samplesOf = (pixels: Samples, opaque: boolean) =>
  opaque ? pixels.filter((_, at) => at % 4 !== 3) : pixels;

it.each([0, 1, 2, 6])(
  'at level %i the pieces are one stream that zlib reads to its check sum',
  async (level) => {
    for (const opaque of [true, false]) {
      const pixels = grain(new Uint8Array(4 * WIDTH * HEIGHT), opaque);
      const file = await encode(pixels, opaque, level);
      expect(chunksOf(file).filter(({ type }) => type === 'IDAT').length).toBeGreaterThan(2);
      const plain = unfiltered(inflateSync(streamIn(file)), opaque ? 3 : 4);
      expect(plain.equals(Buffer.from(samplesOf(pixels, opaque)))).toBe(true);
    }
  },
);

it('16 bit stands with the high byte first', async () => {
  for (const opaque of [true, false]) {
    const pixels = grain(new Uint16Array(4 * WIDTH * HEIGHT), opaque);
    const plain = unfiltered(inflateSync(streamIn(await encode(pixels, opaque, 2))), opaque ? 6 : 8);
    expect(plain.equals(highByteFirst(samplesOf(pixels, opaque)))).toBe(true);
  }
});

it('another reader sees the same pixels', async () => {
  const pixels = grain(new Uint8Array(4 * WIDTH * HEIGHT), true);
  const context = createCanvas(WIDTH, HEIGHT).getContext('2d');
  context.drawImage(await loadImage(await encode(pixels, true, 2)), 0, 0);
  const { data } = context.getImageData(0, 0, WIDTH, HEIGHT);
  expect(Buffer.from(data).equals(Buffer.from(pixels))).toBe(true);
});

it('the bytes are the same however many threads deflate', () => {
  const script = join(folder, 'encode.mjs');
  const contents = `
    import { encodePng } from './encode-png.ts';
    const pixels = Uint8Array.from({ length: 4 * 700 * 1100 }, (_, at) => (at * 2654435761) >>> 25);
    const profile = Buffer.from('no profile');
    await encodePng(process.argv[2], { pixels, width: 700, height: 1100, opaque: false, profile, level: 2 });`;
  buildSync({
    stdin: { contents, resolveDir: import.meta.dirname, loader: 'ts' },
    outfile: script,
    bundle: true,
    format: 'esm',
    platform: 'node',
    packages: 'external',
  });
  const [one, eight] = [1, 8].map((threads) => {
    const path = join(folder, `by-${threads}.png`);
    writeFileSync(path, '');
    const env = { ...process.env, UV_THREADPOOL_SIZE: String(threads) };
    execFileSync(process.execPath, [script, path], { env });
    return readFileSync(path);
  });
  expect(one.length).toBeGreaterThan(500_000);
  expect(one.equals(eight)).toBe(true);
});

/** As `grain`, and the same in every row of a third: what lies above then tells a pixel, not what lies beside it. */
function ribbed<T extends Samples>(pixels: T): T {
  const rowSamples = 4 * WIDTH;
  for (let y = HEIGHT >> 1; y < HEIGHT; y++) pixels.copyWithin(y * rowSamples, 0, rowSamples);
  return pixels;
}

it('tells each piece by the neighbours that it is likest to, and all readers read it', async () => {
  for (const opaque of [true, false]) {
    for (const empty of [new Uint8Array(4 * WIDTH * HEIGHT), new Uint16Array(4 * WIDTH * HEIGHT)]) {
      const pixels = ribbed(grain(empty, opaque));
      const file = await encode(pixels, opaque, 2);
      const rows = inflateSync(streamIn(file));
      const stride = rows.length / HEIGHT;
      expect(new Set(Array.from({ length: HEIGHT }, (_, y) => rows[y * stride]))).toEqual(new Set([1, 2]));
      const sampleBytes = pixels.BYTES_PER_ELEMENT;
      const expected = samplesOf(pixels, opaque);
      const plain = sampleBytes === 1 ? Buffer.from(expected) : highByteFirst(expected as Uint16Array);
      expect(unfiltered(rows, (opaque ? 3 : 4) * sampleBytes).equals(plain)).toBe(true);
      const read = sharp(file).toColourspace(sampleBytes === 1 ? 'srgb' : 'rgb16');
      const data = await read.raw({ depth: sampleBytes === 1 ? 'uchar' : 'ushort' }).toBuffer();
      expect(data.equals(Buffer.from(expected.buffer))).toBe(true);
    }
  }
});

it('joins the check sums of two parts to that of the whole', () => {
  const bytes = Uint8Array.from({ length: 200_000 }, (_, at) => (at % 7 === 0 ? 255 : (at * 73) >> 3));
  const sumOf = (part: Uint8Array) => deflateSync(part).readUInt32BE(deflateSync(part).length - 4);
  for (const cut of [0, 1, 12_345, 65_521, 131_042, 199_999, 200_000]) {
    const [first, second] = [bytes.subarray(0, cut), bytes.subarray(cut)];
    expect(joinAdler32(sumOf(first), sumOf(second), second.length)).toBe(sumOf(bytes));
  }
});

it('chooses by the pixels: ribs down by what lies above, ribs across by what lies beside', () => {
  const ribs = (across: boolean) => {
    const pixels = new Uint8Array(4 * 64 * 64);
    for (let pixel = 0; pixel < 64 * 64; pixel++)
      pixels.fill(((across ? pixel >> 6 : pixel & 63) * 89) % 256, 4 * pixel, 4 * pixel + 4);
    return { pixels, width: 64, opaque: true };
  };
  expect(layRows(ribs(false), 8, 56).choose()).toEqual({ filter: 'up', runs: expect.closeTo(1, 1) });
  expect(layRows(ribs(true), 8, 56).choose().filter).toBe('sub');
});

it('filters the rows that it is asked for', () => {
  const picture = { pixels: grain(new Uint8Array(4 * 5 * 6), true), width: 5, opaque: true };
  for (const filter of ['sub', 'up'] as const) {
    const all = layRows(picture, 0, 6).filter(filter).slice();
    const part = layRows(picture, 2, 3).filter(filter);
    expect([all.length, part.length]).toEqual([6 * 16, 3 * 16]);
    expect(part).toEqual(all.slice(2 * 16, 5 * 16));
  }
});
