import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateSync, inflateSync } from 'node:zlib';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { buildSync } from 'esbuild';
import { expect, it } from 'vitest';
import { encodePng } from './encode-png.ts';
import type { Samples } from './picture.ts';
import { adler32, filterRows } from './png-rows.ts';
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

/** Undoes the Sub filter as PNG Specification, 9.2, has it. */
function unfiltered(rows: Buffer, pixelBytes: number): Buffer {
  const stride = rows.length / HEIGHT;
  const plain = Buffer.alloc(rows.length - HEIGHT);
  for (let y = 0; y < HEIGHT; y++) {
    if (rows[y * stride] !== 1) throw new Error(`row ${y} has filter ${rows[y * stride]}`);
    for (let k = 0; k < stride - 1; k++) {
      const to = y * (stride - 1) + k;
      plain[to] = rows[y * stride + 1 + k] + (k >= pixelBytes ? plain[to - pixelBytes] : 0);
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

it('counts the check sum as zlib does, whole or in parts', () => {
  const bytes = Uint8Array.from({ length: 70_000 }, (_, at) => (at % 7 === 0 ? 255 : (at * 73) >> 3));
  const expected = deflateSync(bytes).readUInt32BE(deflateSync(bytes).length - 4);
  expect(adler32(bytes)).toBe(expected);
  expect(adler32(bytes.subarray(12_345), adler32(bytes.subarray(0, 12_345)))).toBe(expected);
  // RFC 1950, 2.2: it begins at 1.
  expect(adler32(new Uint8Array(0))).toBe(1);
});

it('filters the rows that it is asked for', () => {
  const pixels = grain(new Uint8Array(4 * 5 * 6), true);
  const all = filterRows(pixels, 5, 0, 6, true);
  expect(filterRows(pixels, 5, 2, 3, true)).toEqual(all.slice(2 * 16, 5 * 16));
});
