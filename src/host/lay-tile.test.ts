import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sharedSamples } from '../colour/frame.ts';
import { readPicture, writePicture } from '../picture/index.ts';
import { STRAIGHT } from '../repeat/layout.ts';
import { layTile } from './lay-tile.ts';
import { resolveSteps } from './plugins/resolve-steps.ts';
import { openShelf, type Shelf } from './plugins/shelf.ts';

let folder: string;
let shelf: Shelf;
const size = { width: 40, height: 40 };

/** A flat tile; its left half is darker. */
async function write(name: string, side: number, dark: number): Promise<string> {
  const pixels = sharedSamples(4 * side * side, 8).map((_, k) =>
    k % 4 === 3 || (k / 4) % side >= side / 2 ? 255 : dark,
  );
  const path = join(folder, name);
  await writePicture(path, {
    pixels,
    width: side,
    height: side,
    bits: 8,
    pixelsPerMm: { x: side / 40, y: side / 40 },
  });
  return path;
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-lay-'));
  shelf = await openShelf();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const lightOf = (pixels: ArrayLike<number>, side: number, half: 'left' | 'right') => {
  const found: number[] = [];
  for (let k = 0; k < side * side; k++) {
    const x = k % side;
    // The edges between the halves are the resampler's own.
    const isInside = half === 'left' ? x > 4 && x < side / 2 - 4 : x > side / 2 + 4 && x < side - 4;
    if (isInside) found.push(pixels[4 * k]);
  }
  return { low: Math.min(...found), high: Math.max(...found) };
};

describe('a tile laid at another density', () => {
  it('is resampled, keeps its size and the scale of the texture, and takes its mask along', async () => {
    const tile = await write('tile.png', 80, 255);
    const mask = await write('mask.png', 80, 0);
    const steps = resolveSteps(shelf, [{ effect: 'linen-weave', mask: { picture: mask } }], '1');
    const out = join(folder, 'at.png');
    const report = await layTile({ tile, layout: STRAIGHT, size, at: 6, steps, out });
    expect(report.grid).toMatchObject({ tileWidth: 240, tileHeight: 240, repeat: size });
    expect(report.notes.join()).toContain('from 80 x 80 to 240 x 240 px, 152.4 dpi: enlarged 3 times');
    const { pixels } = await readPicture(out);
    // White cloth where the mask spares, a weave where it is white.
    expect(lightOf(pixels, 240, 'left')).toEqual({ low: 255, high: 255 });
    const laid = lightOf(pixels, 240, 'right');
    expect(laid.high - laid.low).toBeGreaterThan(20);

    const large = join(folder, 'large.png');
    const direct = await write('direct.png', 240, 255);
    const same = resolveSteps(shelf, [{ effect: 'linen-weave' }], '1');
    await layTile({ tile: direct, layout: STRAIGHT, size, steps: same, out: large });
    const whole = await readPicture(large);
    // The weave is that of a tile which had these pixels all along.
    for (let k = 0; k < 240 * 240; k++) {
      if (k % 240 > 124 && k % 240 < 236)
        expect(Math.abs(pixels[4 * k] - whole.pixels[4 * k])).toBeLessThan(2);
    }
  });

  it('says where the size came from', async () => {
    const tile = await write('stated.png', 80, 255);
    const steps = resolveSteps(shelf, [{ effect: 'linen-weave' }], '1');
    const from = async (name: string, clues: object) =>
      (await layTile({ tile, layout: STRAIGHT, steps, out: join(folder, name), ...clues })).sizeFrom;
    expect(await from('a.png', { size })).toBe('given');
    expect(await from('b.png', { density: 2 })).toBe('given density');
    expect(await from('c.png', {})).toBe('file');
  });
});
