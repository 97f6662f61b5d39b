import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { writePicture } from '../src/picture/index.ts';

const command = fileURLToPath(new URL('../dist/cli/main.js', import.meta.url));
const SIDE = { width: 240, height: 200 };
let folder: string;

/** Soft blots on a ground, of a size that no tile has. */
function blots(shadow: number, channels: 3 | 4 = 3): Buffer {
  const { width, height } = SIDE;
  const pixels = Buffer.alloc(channels * width * height, 255);
  let seed = 7;
  const next = () => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return seed / 2 ** 32;
  };
  const spots = Array.from({ length: 60 }, () => [next() * width, next() * height, 4 + 9 * next(), next()]);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const spot = spots.find(([left, top, radius]) => Math.hypot(x - left, y - top) < radius);
      const tone = (spot ? 70 + 80 * spot[3] : 205) + 10 * next();
      const light = 1 - (shadow * x) / width;
      for (let c = 0; c < 3; c++) pixels[channels * (x + y * width) + c] = (tone - 14 * c) * light;
    }
  return pixels;
}

function picture(name: string, pixels: Buffer, channels: 3 | 4, dpi?: number) {
  const image = sharp(pixels, { raw: { ...SIDE, channels } });
  return (dpi ? image.withMetadata({ density: dpi }) : image).png().toFile(join(folder, name));
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-close-'));
  await picture('blots.png', blots(0), 3, 127);
  // By our own writer: the engine states a density of its own where none is given.
  await writePicture(join(folder, 'bare.png'), { ...SIDE, pixels: Uint8Array.from(blots(0, 4)) });
  await picture('uneven.png', blots(0.35), 3, 127);
  const flat = { create: { ...SIDE, channels: 4 as const, background: { r: 9, g: 80, b: 90, alpha: 0.5 } } };
  await sharp(flat).png().toFile(join(folder, 'flat.png'));
  await sharp({ create: { width: 1, height: 90, channels: 3, background: '#333' } })
    .png()
    .toFile(join(folder, 'hair.png'));
  writeFileSync(join(folder, 'broken.png'), 'no picture');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function close(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, 'close', ...args], {
    cwd: folder,
    encoding: 'utf8',
  });
  return { status, stdout, stderr };
}

const samplesOf = (name: string) => sharp(join(folder, name)).ensureAlpha().raw().toBuffer();

it('says what will be and what was changed, and writes the tile and where it was cut', async () => {
  const said = close('blots.png', '--layout', 'half-drop', '--within', '5mm', '--show', 'where.png');
  expect(said.stderr).toBe('');
  expect(said.stdout).toMatch(/picture {2}48 x 40 mm, 240 x 200 px\n {2}tile {5}will be [\d.]+ x [\d.]+ mm/);
  expect(said.stdout).toMatch(
    /strip {4}[\d.]+ mm \(\d+ px\) at the top edge[\s\S]*at the left edge[\s\S]*changed {2}[\d.]+ % of/,
  );
  expect(said.stdout).toMatch(/seams {4}Closes over drop:1\/2/);
  expect(said.status).toBe(0);
  const tile = await sharp(join(folder, 'blots-closed.png')).metadata();
  expect(tile.width).toBeLessThan(240);
  expect(tile.height % 2).toBe(0);
  expect(tile.density).toBe(127);
  expect(existsSync(join(folder, 'where.png'))).toBe(true);
}, 120_000);

it('comes back unchanged where it closes already, and says so', async () => {
  const first = JSON.parse(close('bare.png', '--out', 'once.png', '--json').stdout);
  expect(first).toMatchObject({ closedAlready: false, seams: { closes: true }, layout: 'straight' });
  expect(first.change.share).toBeGreaterThan(0);
  const said = close('once.png', '--out', 'twice.png');
  expect(said.stdout).toContain('it closes already: nothing is changed');
  expect((await samplesOf('twice.png')).equals(await samplesOf('once.png'))).toBe(true);
  const flat = JSON.parse(close('flat.png', '--layout', 'turn', '--out', 'flat-closed.png', '--json').stdout);
  expect(flat.closedAlready).toBe(true);
  expect((await samplesOf('flat-closed.png')).equals(await samplesOf('flat.png'))).toBe(true);
}, 120_000);

it('keeps the size where asked, and what lies outside the strips bit for bit', async () => {
  const args = ['--layout', 'brick:1/2', '--keep-size', '--within', '30px', '--out', 'kept.png', '--json'];
  const facts = JSON.parse(close('bare.png', ...args).stdout);
  expect(facts.tile).toEqual({ widthPx: 240, heightPx: 200 });
  const [was, now] = await Promise.all([samplesOf('bare.png'), samplesOf('kept.png')]);
  const isWorked = (x: number, y: number) =>
    facts.strips.some(
      (s: { x: number; y: number; width: number; height: number }) =>
        x >= s.x && y >= s.y && x < s.x + s.width && y < s.y + s.height,
    );
  let changed = 0;
  for (let y = 0; y < 200; y++)
    for (let x = 0; x < 240; x++) {
      const at = 4 * (x + y * 240);
      if (!isWorked(x, y) && was.compare(now, at, at + 4, at, at + 4) !== 0) changed++;
    }
  expect(changed).toBe(0);
  expect(facts.strips.some((s: { x: number; y: number }) => s.x > 0 || s.y > 0)).toBe(true);
}, 120_000);

it('tells of uneven light, and divides it out where asked', () => {
  const hinted = close('uneven.png', '--out', 'hinted.png');
  expect(hinted.stdout).toMatch(/hint {5}the light seems uneven/);
  const said = close('uneven.png', '--out', 'even.png', '--even-light');
  expect(said.stdout).toMatch(/light {4}the brightest is \d.* divided out, which changes the whole picture/);
  expect(said.stdout).not.toContain('hint');
}, 120_000);

it.each([
  [
    2,
    ['bare.png', '--within', '12mm', '--out', 'new.png'],
    'the picture states no density. Add for example --size',
  ],
  [2, ['bare.png', '--within', '12'], 'Write for example 12mm or 140px'],
  [2, ['blots.png', '--within', '40mm', '--out', 'new.png'], 'a third of its width'],
  [2, ['blots.png', '--size', '100x20mm', '--out', 'new.png'], 'The size is that of one tile'],
  [2, ['blots.png', '--layout', 'mirror-xy'], 'There is nothing to close in mirror-xy'],
  [2, ['hair.png', '--out', 'new.png'], 'at least 24 px wide and high'],
  [3, ['nowhere.png'], 'nowhere.png'],
  [3, ['broken.png'], 'broken.png'],
  [4, ['blots.png', '--out', 'blots.png', '--overwrite'], 'is one of the files that the result is made from'],
  [4, ['blots.png', '--out', 'flat.png'], 'flat.png'],
  [4, ['blots.png', '--out', 'tile.gif'], 'ends in .png'],
  [2, ['blots.png', '--out', 'same.png', '--show', 'same.png'], 'Give each its own name'],
])(
  'refuses with code %i: %j, and writes nothing',
  (code, args, words) => {
    const before = readdirSync(folder);
    const said = close(...args);
    expect(said.stderr).toContain(words);
    expect(said.status).toBe(code);
    expect(readdirSync(folder)).toEqual(before);
  },
  120_000,
);
