import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const command = new URL('../dist/cli/main.js', import.meta.url).pathname;
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-sketch-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    execFile(process.execPath, [command, ...args], { cwd: folder }, (error, out, err) => {
      resolve({ code: error ? Number(error.code) : 0, out, err });
    });
  });
}

/** 40.64 mm at 300 dpi; at 100 dpi it is 160 px. */
const SIDE = 480;
const SIZE = ['--size', '40.64x40.64mm'];

describe('--sketch', () => {
  it('makes a texture at 100 dpi at most, of the same size in mm', async () => {
    const args = ['make', 'dry-brush', ...SIZE, '--dpi', '300', '--sketch', '--out', 'made.png', '--json'];
    const { code, out } = await run(args);
    expect(code).toBe(0);
    const facts = JSON.parse(out);
    expect(facts.repeat).toMatchObject({ widthMm: 40.64, heightMm: 40.64, widthPx: 160, heightPx: 160 });
    const { width, density } = await sharp(join(folder, 'made.png')).metadata();
    expect([width, density]).toEqual([160, 100]);
    expect(facts.notes.join()).toMatch(/100 dpi.*300 dpi/);
  });

  it('lays over an artwork and a mask that it makes smaller, and looks like the finished from further away', async () => {
    const pixels = Buffer.from(Array.from({ length: SIDE * SIDE * 3 }, (_, k) => [60, 110, 150][k % 3]));
    const raw = { raw: { width: SIDE, height: SIDE, channels: 3 as const } };
    await sharp(pixels, raw).png().toFile(join(folder, 'tile.png'));
    const left = Buffer.from(Array.from({ length: SIDE * SIDE }, (_, k) => (k % SIDE < SIDE / 2 ? 255 : 0)));
    await sharp(left, { raw: { ...raw.raw, channels: 1 } })
      .png()
      .toFile(join(folder, 'mask.png'));
    const args = ['lay', 'sponged', 'tile.png', ...SIZE, '--mask', 'mask.png', '--json'];
    expect((await run([...args, '--out', 'finished.png'])).code).toBe(0);
    const sketch = await run([...args, '--sketch', '--out', 'sketch.png']);
    expect(sketch.err).toBe('');
    expect(JSON.parse(sketch.out).repeat.widthPx).toBe(160);
    const far = await sharp(join(folder, 'finished.png'))
      .resize(160, 160, { kernel: 'cubic' })
      .raw()
      .toBuffer();
    const near = await sharp(join(folder, 'sketch.png')).raw().toBuffer();
    const off = near.reduce((sum, value, k) => sum + Math.abs(value - far[k]), 0) / near.length;
    expect(off).toBeLessThan(3);
    const right = [...near.subarray((160 - 5) * 3, (160 - 5) * 3 + 3)];
    expect(right).toEqual([60, 110, 150]);
  });

  it('leaves a texture that is coarser already as it is', async () => {
    const args = ['make', 'dry-brush', ...SIZE, '--dpi', '50', '--sketch', '--out', 'coarse.png', '--json'];
    expect(JSON.parse((await run(args)).out).repeat.widthPx).toBe(80);
  });
});
