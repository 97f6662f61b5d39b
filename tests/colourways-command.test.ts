import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPicture, writePicture } from '../src/picture/index.ts';

const command = fileURLToPath(new URL('../dist/cli/main.js', import.meta.url));
const SIDE = 120;
const GROUND = [243, 234, 216];
const LEAF = [47, 111, 79];
let folder: string;

const write = (name: string, value: unknown) =>
  writeFileSync(join(folder, name), typeof value === 'string' ? value : JSON.stringify(value));
const WAYS = {
  card: 'sprig.card.json',
  colourways: {
    dusk: { ground: '#2b2f45', leaf: '#c6b078' },
    fog: { ground: '#c9cdc8', leaf: '#c6cac5' },
    own: { rest: 'as on the card' },
  },
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-ways-'));
  const pixels = new Uint8Array(4 * SIDE * SIDE).fill(255);
  for (let k = 0; k < SIDE * SIDE; k++) pixels.set(Math.floor(k / 20) % 2 ? LEAF : GROUND, 4 * k);
  pixels.set([100, 90, 80], 4 * 777);
  await writePicture(join(folder, 'sprig.png'), { pixels, width: SIDE, height: SIDE, pixelsPerMm: 4 });
  write('sprig.card.json', {
    card: 'sprig',
    inks: [
      { name: 'ground', kind: 'ground', colour: '#f3ead8' },
      { name: 'leaf', kind: 'ink', colour: '#2f6f4f' },
    ],
  });
  write('sprig.ways.json', WAYS);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function tenter(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...args], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 120_000,
  });
  return { status, stdout, stderr };
}
const read = (name: string) => readPicture(join(folder, name));
/** The middle of the first stripe, where no resampling reaches. */
async function groundOf(name: string): Promise<number[]> {
  const { pixels, width } = await read(name);
  return [...pixels.subarray(4 * (10 * width + 50), 4 * (10 * width + 50) + 3)];
}

describe('tenter colourways', () => {
  it('writes a picture for each, with its density, and gives the tile back in the card’s own colours', async () => {
    const args = ['--ways', 'sprig.ways.json', '--json'];
    const { status, stdout, stderr } = tenter('colourways', 'sprig.png', ...args);
    expect(stderr).toBe('');
    expect(status).toBe(0);
    const [dusk, fog, own] = JSON.parse(stdout).colourways;
    expect(dusk).toMatchObject({ name: 'dusk', inks: { ground: '#2b2f45', leaf: '#c6b078' } });
    expect(dusk.doubts).toMatchObject([{ kind: 'reversed', inks: ['ground', 'leaf'] }]);
    expect(fog.doubts).toMatchObject([{ kind: 'alike', inks: ['ground', 'leaf'] }]);
    const [tile, back, other] = [await read('sprig.png'), await read(own.out), await read(dusk.out)];
    expect(Buffer.compare(back.pixels as Uint8Array, tile.pixels as Uint8Array)).toBe(0);
    expect([...other.pixels.subarray(0, 4)]).toEqual([43, 47, 69, 255]);
    expect(other.pixelsPerMm).toBeCloseTo(4, 3);
    expect(tenter('colourways', 'sprig.png', '--ways', 'sprig.ways.json').status).not.toBe(0);
  });
  it('draws a sheet, and one colourway alone', async () => {
    const args = ['--only', 'dusk', '--no-pictures', '--sheet', 'sheet.png', '--layout', 'half-drop'];
    const { status, stdout } = tenter('colourways', 'sprig.png', '--ways', 'sprig.ways.json', ...args);
    expect(status).toBe(0);
    expect(stdout).toContain('light and dark are reversed');
    expect((await read('sheet.png')).width).toBeGreaterThan(1000);
  });
  it('says that a card is of another tile, and offers the nearest name', () => {
    write('other.card.json', {
      card: 'other',
      inks: [
        { name: 'ground', kind: 'ground', colour: '#102080' },
        { name: 'leaf', kind: 'ink', colour: '#c01030' },
      ],
    });
    const args = ['--ways', 'sprig.ways.json', '--only', 'dusk', '--no-pictures'];
    const found = tenter('colourways', 'sprig.png', ...args, '--card', 'other.card.json');
    expect(found.stderr).toMatch(/another tile: .* off this one by \d+/);
    expect(tenter('colourways', 'sprig.png', '--ways', 'sprig.ways.json', '--only', 'dask').stderr).toContain(
      'Did you mean "dusk"?',
    );
  });
});

describe('lay and make in a colourway', () => {
  const lay = (...args: string[]) =>
    tenter('lay', 'linen-weave', 'sprig.png', '--sketch', '--out', 'laid.png', '--overwrite', ...args);
  it('recolour the artwork, and take names of inks for colours', async () => {
    const args = ['--ways', 'sprig.ways.json', '--colourway', 'dusk', '--on', 'leaf', '--paper', 'ground'];
    const { status, stdout, stderr } = lay(...args, '--json');
    expect(stderr).toBe('');
    expect(status).toBe(0);
    const { steps } = JSON.parse(stdout);
    expect(steps[0].mask.colours).toEqual(['#c6b078']);
    expect(steps[0].laidOn).toBeGreaterThan(0.4);
    expect(steps[0].laidOn).toBeLessThan(0.6);
    expect(await groundOf('laid.png')).toEqual([43, 47, 69]);
  });
  it('refuse a name without a card, or one that is not on it', () => {
    expect(lay('--on', 'leaf').stderr).toMatch(/"leaf", and no card is in force.*--card/);
    expect(lay('--on', 'loaf', '--card', 'sprig.card.json').stderr).toContain('Did you mean "leaf"?');
    expect(lay('--colourway', 'dusk').stderr).toContain('--ways');
  });
  it('go by the colourway that a recipe names, unless another is given', async () => {
    write('dusk.json', {
      summary: 'Linen at dusk.',
      colourway: { ways: 'sprig.ways.json', name: 'dusk' },
      steps: [{ effect: 'linen-weave', opacity: 0, mask: { colours: ['leaf'] } }],
    });
    const args = ['dusk.json', 'sprig.png', '--sketch', '--overwrite', '--out', 'recipe.png'];
    expect(tenter('lay', ...args).status).toBe(0);
    expect(await groundOf('recipe.png')).toEqual([43, 47, 69]);
    expect(tenter('lay', ...args, '--colourway', 'own').status).toBe(0);
    expect(await groundOf('recipe.png')).toEqual(GROUND);
  });
  it('make lays over an ink', () => {
    const args = ['--size', '20x20mm', '--dpi', '101.6', '--out', 'alone.png', '--ground', 'leaf', '--json'];
    const { status, stdout } = tenter('make', 'linen-weave', ...args, '--card', 'sprig.card.json');
    expect(status).toBe(0);
    expect(JSON.parse(stdout).notes).toContain('over a ground of #2f6f4f');
  });
});

describe('colourways as an axis', () => {
  const run = () => tenter('collect', 'run', 'spring.json', '--json');
  it('are rendered each, and only what a changed file changes is made again', async () => {
    write('spring.json', {
      summary: 'Spring.',
      tiles: [{ picture: 'sprig.png', ways: 'sprig.ways.json' }],
      recipes: [
        { name: 'linen', effect: 'linen-weave', opacity: 0, mask: { colours: ['leaf'], spare: true } },
      ],
      vary: { colourway: ['dusk', 'own'], quality: ['sketch'] },
    });
    expect(run().status).toBe(0);
    const [dusk, own] = ['dusk', 'own'].map((name) => join('made', 'sprig', `linen-${name}.png`));
    expect([...(await read(dusk)).pixels.subarray(0, 3)]).toEqual([43, 47, 69]);
    expect([...(await read(own)).pixels.subarray(0, 3)]).toEqual(GROUND);
    const sidecar = (name: string) => JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8'));
    expect(sidecar(dusk).inputs.colourway).toMatchObject({ name: 'dusk', inks: [{ to: '#2b2f45' }, {}] });
    expect(sidecar(own).inputs.colourway).toBeUndefined();
    const before = [dusk, own].map((name) => sidecar(name).address);
    // Another name of the same file, and another time, change nothing.
    write('moved.ways.json', WAYS);
    write(
      'spring.json',
      readFileSync(join(folder, 'spring.json'), 'utf8').replace('sprig.ways', 'moved.ways'),
    );
    run();
    expect([dusk, own].map((name) => sidecar(name).address)).toEqual(before);
    const changed = { ...WAYS.colourways, dusk: { ground: '#2b2f46', leaf: '#c6b078' } };
    write('moved.ways.json', { ...WAYS, colourways: changed });
    const finished = sidecar(own).run.finished;
    expect(run().status).toBe(0);
    expect(sidecar(dusk).address).not.toBe(before[0]);
    expect([...(await read(dusk)).pixels.subarray(0, 3)]).toEqual([43, 47, 70]);
    expect(sidecar(own).run.finished).toBe(finished);
  });
  it('are told with their line where one is missing, or the file is', () => {
    write('spring.json', {
      summary: 'Spring.',
      tiles: [{ picture: 'sprig.png', ways: 'sprig.ways.json' }],
      recipes: [{ effect: 'linen-weave' }],
      vary: { colourway: ['dask'] },
    });
    expect(tenter('collect', 'plan', 'spring.json').stderr).toContain('Did you mean "dusk"?');
    write(
      'spring.json',
      readFileSync(join(folder, 'spring.json'), 'utf8').replace('sprig.ways', 'gone.ways'),
    );
    expect(tenter('collect', 'plan', 'spring.json').stderr).toContain('gone.ways.json');
    expect(existsSync(join(folder, 'made', 'sprig', 'linen-weave-dask.png'))).toBe(false);
  });
});
