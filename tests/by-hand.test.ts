import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { blend, type Rgb } from 'culori';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const command = new URL('../dist/cli/main.js', import.meta.url).pathname;
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-by-hand-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    execFile(process.execPath, [command, ...args], { cwd: folder }, (error, out, err) => {
      resolve({ code: error ? Number(error.code) : 0, out, err });
    });
  });
}

const SIZE = ['--size', '12x12mm', '--dpi', '127'];
const PIXELS = 60 * 60;
/** Far from one another, and none a colour that anything was fitted over. */
const ARTWORKS = ['#8c6a4f', '#20304c'] as const;

interface Laying {
  readonly layers: readonly { readonly file: string; readonly part: string; readonly mode: string }[];
  readonly layersAgain: { readonly mean: number; readonly p95: number; readonly largest: number };
}

async function makeLayers(effect: string, name: string): Promise<Laying> {
  const { code, out, err } = await run([
    'make',
    effect,
    ...SIZE,
    '--layer',
    '--out',
    `${name}.png`,
    '--json',
  ]);
  expect(err).toBe('');
  expect(code).toBe(0);
  return JSON.parse(out);
}

/** Laid by an independent implementation of the W3C modes over one colour. */
async function layByHand({ layers }: Laying, hex: string): Promise<Float64Array> {
  const ground = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
  const result = Float64Array.from({ length: PIXELS * 3 }, (_, k) => ground[k % 3]);
  for (const { file, mode } of layers) {
    const { data } = await sharp(join(folder, file))
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    for (let pixel = 0; pixel < PIXELS; pixel++) {
      const under: Rgb = {
        mode: 'rgb',
        r: result[pixel * 3],
        g: result[pixel * 3 + 1],
        b: result[pixel * 3 + 2],
      };
      const [r, g, b, alpha] = data
        .subarray(pixel * 4, pixel * 4 + 4)
        .map((value) => value) as never as number[];
      const over: Rgb = { mode: 'rgb', r: r / 255, g: g / 255, b: b / 255, alpha: alpha / 255 };
      const laid = blend([under, over], mode as never, 'rgb') as Rgb;
      result.set([laid.r, laid.g, laid.b], pixel * 3);
    }
  }
  return result.map((value) => Math.min(1, Math.max(0, value)) * 255);
}

describe('make --layer', () => {
  it.each([
    // Effect, parts, and the largest difference of 255 that is let pass.
    ['raw-silk', 'dark light', 6],
    ['wood-grain', 'dark light', 6],
    ['dry-brush', 'paint dark', 24],
    ['paper-tooth', 'paint dark light', 10],
  ])('%s laid by hand over any colour is what the host lays', async (effect, parts, most) => {
    const laying = await makeLayers(effect, effect);
    expect(laying.layers.map(({ part }) => part).join(' ')).toBe(parts);
    expect(laying.layers.map(({ file }) => file)).toEqual(
      parts.split(' ').map((part) => `${effect}-${part}.png`),
    );
    let largest = 0;
    for (const hex of ARTWORKS) {
      const host = `${effect}-${hex.slice(1)}.png`;
      expect((await run(['make', effect, ...SIZE, '--ground', hex, '--out', host])).code).toBe(0);
      const wanted = await sharp(join(folder, host)).removeAlpha().raw().toBuffer();
      const laid = await layByHand(laying, hex);
      const off = Array.from(laid, (value, k) => Math.abs(value - wanted[k]));
      largest = Math.max(largest, ...off.map((value) => Math.round(value)));
    }
    expect(largest).toBeLessThanOrEqual(most);
    // What it says of itself holds for colours it has not tried, give or take a rounding.
    expect(largest).toBeLessThanOrEqual(laying.layersAgain.largest + 1);
  });

  it('writes both or none, and nothing over what is there', async () => {
    writeFileSync(join(folder, 'kept-light.png'), 'mine');
    const refused = await run(['make', 'watered-silk', ...SIZE, '--layer', '--out', 'kept.png']);
    expect(refused.code).not.toBe(0);
    expect(refused.err).toContain('kept-light.png');
    expect(existsSync(join(folder, 'kept-dark.png'))).toBe(false);
    expect(readFileSync(join(folder, 'kept-light.png'), 'utf8')).toBe('mine');
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('says in words how to lay them, how far they are off, and what a layer cannot hold', async () => {
    const silk = await run(['make', 'watered-silk', ...SIZE, '--layer', '--out', 'words.png']);
    expect(silk.out).toMatch(/words-dark\.png.*multiply/);
    expect(silk.out).toMatch(/words-light\.png.*color-dodge/);
    expect(silk.out).toMatch(/laid again.*of 255/);
    const salt = await run(['make', 'salt-bloom', ...SIZE, '--layer', '--out', 'salt.png']);
    expect(salt.err).toMatch(/moves paint/);
    const ground = await run(['make', 'watered-silk', ...SIZE, '--layer', '--ground', '#304050']);
    expect(ground.err).toMatch(/--ground/);
  });
});
