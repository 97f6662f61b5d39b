import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { expect, it } from 'vitest';
import { readPicture, refuseOverwrite, sharedSamples, writePicture } from './index.ts';
import { srgbProfile } from './stamp.ts';
import { testFolder } from './testing/folder.ts';

const folder = testFolder();

/** A slow ramp from red to blue, so that JPEG itself changes little. */
function ramp(bits: 8 | 16, width = 96, height = 64) {
  const pixels = sharedSamples(width * height * 4, bits);
  const unit = bits === 8 ? 1 : 257;
  for (let at = 0; at < width * height; at++) {
    const across = Math.round((255 * (at % width)) / (width - 1));
    pixels.set([across * unit, 120 * unit, (255 - across) * unit, 255 * unit], 4 * at);
  }
  return { pixels, width, height, bits };
}

/** Segments before the pixels, by marker (ITU-T T.81, B.1.1). */
function segments(bytes: Buffer): [number, Buffer][] {
  const found: [number, Buffer][] = [];
  for (let at = 2; bytes[at + 1] !== 0xda; at += 2 + bytes.readUInt16BE(at + 2)) {
    found.push([bytes[at + 1], bytes.subarray(at + 4, at + 2 + bytes.readUInt16BE(at + 2))]);
  }
  return found;
}

it.each([
  [8, '.jpg'],
  [16, '.jpeg'],
  [8, '.JPG'],
] as const)('%i bit written as %s is what another reader (Skia) sees', async (bits, ending) => {
  const path = join(folder, `ramp-${bits}${ending}`);
  const written = await writePicture(path, { ...ramp(bits), pixelsPerMm: 300 / 25.4 });
  expect(written).toEqual({ bytes: readFileSync(path).length, opaque: true });
  const image = await loadImage(readFileSync(path));
  expect([image.width, image.height]).toEqual([96, 64]);
  const context = createCanvas(96, 64).getContext('2d');
  context.drawImage(image, 0, 0);
  const { data } = context.getImageData(0, 0, 96, 64);
  const wanted = ramp(8).pixels;
  const apart = data.map((value, index) => Math.abs(value - wanted[index]));
  expect(Math.max(...apart)).toBeLessThanOrEqual(6);
  expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
});

it.each([
  [300 / 25.4, 1, 300],
  [11.8, 2, 118],
  [10, 1, 254],
])('states %f px/mm in its JFIF header, and the sRGB profile', async (pixelsPerMm, unit, figure) => {
  const path = join(folder, `density-${figure}.jpg`);
  await writePicture(path, { ...ramp(8), pixelsPerMm });
  const parts = segments(readFileSync(path));
  const jfif = parts[0];
  expect([jfif[0], jfif[1].toString('latin1', 0, 4)]).toEqual([0xe0, 'JFIF']);
  expect([jfif[1][7], jfif[1].readUInt16BE(8), jfif[1].readUInt16BE(10)]).toEqual([unit, figure, figure]);
  const icc = parts.filter(([marker]) => marker === 0xe2).map(([, data]) => data);
  expect(icc.map((data) => data.toString('latin1', 0, 12))).toEqual(['ICC_PROFILE\0']);
  expect(icc[0].subarray(14)).toEqual(await srgbProfile());
  const back = await readPicture(path);
  expect(back.pixelsPerMm).toBeCloseTo(pixelsPerMm, 9);
  expect(back.notes).toEqual([]);
});

it('without a density states none', async () => {
  const path = join(folder, 'bare.jpg');
  await writePicture(path, ramp(8));
  expect(segments(readFileSync(path))[0][1].subarray(7, 12)).toEqual(Buffer.from([0, 0, 1, 0, 1]));
  expect((await readPicture(path)).pixelsPerMm).toBeUndefined();
});

it('of a transparent picture is refused in words, and nothing is written', async () => {
  const path = join(folder, 'glass.jpg');
  const glass = ramp(8);
  glass.pixels[3] = 254;
  await expect(writePicture(path, glass)).rejects.toMatchObject({
    kind: 'output',
    message: expect.stringMatching(/transparen.*JPEG.*PNG or TIFF/s),
  });
  expect(existsSync(path)).toBe(false);
});

it('is an ending that may be asked for', async () => {
  await refuseOverwrite(join(folder, 'new.jpg'));
});
