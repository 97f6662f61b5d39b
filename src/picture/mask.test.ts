import { expect, it } from 'vitest';
import { readMask } from './index.ts';
import { filer, testFolder } from './testing/folder.ts';
import { highByteFirst, pngFile } from './testing/png-file.ts';

const file = filer(testFolder());

it('keeps every level of grey', async () => {
  const rows = Buffer.from(Array.from({ length: 256 }, (_, level) => level));
  const mask = await readMask(file(pngFile({ width: 16, height: 16, depth: 8, colour: 0, rows })));
  expect([...mask.samples]).toEqual([...rows]);
  expect(mask).toMatchObject({ width: 16, height: 16 });
  expect(mask.samples.buffer).toBeInstanceOf(SharedArrayBuffer);
});

it('brings 16 bit to 8 by rounding', async () => {
  const rows = highByteFirst([0, 128, 129, 32_768, 65_535]);
  const { samples } = await readMask(file(pngFile({ width: 5, height: 1, depth: 16, colour: 0, rows })));
  expect([...samples]).toEqual([0, 0, 1, 128, 255]);
});

it('multiplies by alpha: what is transparent spares', async () => {
  const rows = Buffer.from([255, 0, 255, 128, 255, 255, 100, 51, 0, 255]);
  const { samples } = await readMask(file(pngFile({ width: 5, height: 1, depth: 8, colour: 4, rows })));
  expect([...samples]).toEqual([0, 128, 255, 20, 0]);
});

// luminanceToAlpha of SVG 1.1, 15.10: 0.2125, 0.7154, 0.0721.
it('weighs red, green and blue as W3C weighs a luminance mask', async () => {
  const rows = Buffer.from([255, 0, 0, 0, 255, 0, 0, 0, 255, 255, 255, 255]);
  const { samples } = await readMask(file(pngFile({ width: 4, height: 1, depth: 8, colour: 2, rows })));
  expect([...samples]).toEqual([54, 182, 18, 255]);
});

it('reads the same through memory and file', async () => {
  const rows = Buffer.from(Array.from({ length: 400 }, (_, index) => (index * 37) & 255));
  const path = file(pngFile({ width: 10, height: 10, depth: 8, colour: 6, rows }));
  const [first, second] = await Promise.all(
    (['memory', 'file'] as const).map((route) => readMask(path, { route })),
  );
  expect(second).toEqual(first);
  expect(new Set(first.samples).size).toBeGreaterThan(20);
});
