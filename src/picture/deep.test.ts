import { truncateSync, writeFileSync } from 'node:fs';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { measurePicture, readDeepPicture } from './deep.ts';
import { readPicture } from './index.ts';
import { filer, testFolder } from './testing/folder.ts';
import { highByteFirst, pngFile, pngThatClaims } from './testing/png-file.ts';
import { type TiffTag, tiffFile } from './testing/tiff-file.ts';

const file = filer(testFolder());

it('brings 8 bit to 16: nothing stays nothing, all is all', async () => {
  const rows = Buffer.from([0, 1, 128, 255]);
  const { samples } = await readDeepPicture(
    file(pngFile({ width: 1, height: 1, depth: 8, colour: 6, rows })),
  );
  expect([...samples]).toEqual([0, 257, 32_896, 65_535]);
  expect(samples.buffer).toBeInstanceOf(SharedArrayBuffer);
});

it.each(['memory', 'file'] as const)('keeps 16 bit to the last, through %s', async (route) => {
  const values = Array.from({ length: 4 * 7 * 5 }, (_, k) => (k * 7919 + 1) % 65_536);
  const path = file(pngFile({ width: 7, height: 5, depth: 16, colour: 6, rows: highByteFirst(values) }));
  expect([...(await readDeepPicture(path, { route })).samples]).toEqual(values);
});

// TIFF 6.0: tag 274 is the orientation, 6 a quarter turn; 282 and 283 the densities, 296 their unit, 2 the inch.
it('turns the densities with the picture', async () => {
  const tags: TiffTag[] = [
    [274, 3, [6]],
    [282, 5, [[254, 1]]],
    [283, 5, [[508, 1]]],
    [296, 3, [2]],
  ];
  const strip = Buffer.from([255, 0, 0, 0, 255, 0, 0, 0, 255]);
  const path = file(tiffFile({ width: 3, height: 1, bits: [8, 8, 8], photometric: 2, strip, tags }));
  const turned = await readDeepPicture(path);
  expect(turned).toMatchObject({ width: 1, height: 3, density: { x: 20, y: 10 } });
  expect([...turned.samples.subarray(0, 4)]).toEqual([65_535, 0, 0, 65_535]);
  expect(await measurePicture(path)).toEqual({ width: 1, height: 3, density: { x: 20, y: 10 } });
});

it('has the same colours as any picture that is read: of a press, and of a profile', async () => {
  const plain = sharp({ create: { width: 3, height: 2, channels: 3, background: '#3a7f5c' } });
  for (const bytes of [
    await plain.clone().toColourspace('cmyk').withIccProfile('cmyk').tiff().toBuffer(),
    await plain.clone().withIccProfile('p3').png().toBuffer(),
    await plain.clone().toColourspace('b-w').png().toBuffer(),
  ]) {
    const path = file(bytes);
    const { pixels } = await readPicture(path);
    const { samples } = await readDeepPicture(path);
    expect([...samples]).toEqual([...pixels].map((sample) => sample * 257));
  }
});

it('refuses more than it has room for before it is decoded, a file of more than 1 GB, and what is no picture', async () => {
  await expect(readDeepPicture(file(pngThatClaims(9000, 8000)))).rejects.toThrow(
    /at most 64 megapixels .* 9000 x 8000 px/,
  );
  const huge = file(pngFile({ width: 1, height: 1, depth: 8, colour: 0, rows: Buffer.from([0]) }));
  const whole = await sharp(huge).tiff().toBuffer();
  writeFileSync(huge, whole);
  // A hole: it takes no room on the disk.
  truncateSync(huge, 1_000_000_001);
  await expect(measurePicture(huge)).rejects.toThrow(/a file of 1\.0 GB, where 1 GB is the most/);
  await expect(measurePicture(file(Buffer.from('no picture')))).rejects.toThrow(/whole picture/);
});
