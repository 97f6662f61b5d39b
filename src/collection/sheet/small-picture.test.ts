import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { writePicture } from '../../picture/index.ts';
import { readSmall, shrinkSmall } from './small-picture.ts';
import type { Made } from './swatch.ts';

const folder = mkdtempSync(join(tmpdir(), 'tenter-small-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function madeOf(
  name: string,
  width: number,
  height: number,
  colour: (i: number) => number[],
): Promise<Made> {
  const path = join(folder, name);
  const pixels = Uint8Array.from({ length: width * height * 4 }, (_, i) => colour(i >> 2)[i & 3]);
  await writePicture(path, { pixels, width, height, pixelsPerMm: 1 });
  const picture = { widthPx: width, heightPx: height, widthMm: width, heightMm: height, layout: 'straight' };
  return {
    path,
    picture: { ...picture, bytes: 0, sha256: '', dpi: 25.4 },
    seams: { closes: true, summary: '' },
    notes: [],
  };
}

/** Bytes 64 and 192 in a chequer: their mean light is byte 146.4 (IEC 61966-2-1), their mean 128. */
const chequer = (i: number) => {
  const grey = ((i % 16) + (i >> 4)) % 2 ? 64 : 192;
  return [grey, grey, grey, 255];
};

describe('a picture read small', () => {
  it('has the mean light of what it was, at the first shrinking and at the next', async () => {
    const small = await readSmall(await madeOf('chequer.png', 16, 16, chequer), 0.25);
    expect([small.grid.tileWidth, small.grid.tileHeight]).toEqual([4, 4]);
    for (const value of small.pixels) expect(Math.abs(value - 146.4)).toBeLessThan(5);
    const mean = small.pixels.reduce((sum, value) => sum + value) / small.pixels.length;
    expect(Math.abs(mean - 146.4)).toBeLessThan(2);
    const smaller = await shrinkSmall(await readSmall(await madeOf('again.png', 16, 16, chequer), 1), 0.25);
    expect(Math.abs(smaller.pixels[16] - 146.4)).toBeLessThan(5);
  });
  it('lies on white where it is transparent', async () => {
    const small = await readSmall(await madeOf('clear.png', 8, 8, () => [0, 0, 0, 0]), 0.5);
    expect(small.pixels.every((value) => value === 255)).toBe(true);
  });
  it('is never made larger than it is', async () => {
    const { grid, pixels } = await readSmall(await madeOf('own.png', 8, 6, (i) => [i, 2 * i, 3 * i, 255]), 9);
    expect([grid.tileWidth, grid.tileHeight]).toEqual([8, 6]);
    expect([...pixels.slice(3, 6)]).toEqual([1, 2, 3]);
  });
  it('is refused where the file is not what its record says', async () => {
    const made = await madeOf('other.png', 8, 8, chequer);
    const other = { ...made, picture: { ...made.picture, widthPx: 16 } };
    await expect(readSmall(other, 1)).rejects.toThrow('8 x 8 px where its record says 16 x 8');
  });
});
