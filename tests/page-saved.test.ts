import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { SaveOrder } from '../src/page/words/save.ts';
import type { Resist, Work, WorkStep } from '../src/page/words/work.ts';
import { command, RIPPLE, writeTile } from './collection-kit.ts';
import { firstWork, type OpenedPage, openPage, savedBy } from './page-kit.ts';

let folder: string;
let page: OpenedPage;
let work: Work;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-page-saved-'));
  writeFileSync(join(folder, 'ripple.ts'), RIPPLE);
  await writeTile(join(folder, 'sprig.png'), 64, 48, 40);
  page = await openPage(folder, [
    ...['open', 'sprig.png', '--layout', 'drop:1/2', '--size', '64x48mm'],
    ...['--plugins', 'ripple.ts', '--trust', '--no-browser'],
  ]);
  work = await firstWork(page);
});
afterAll(async () => {
  await page?.end();
  rmSync(folder, { recursive: true, force: true });
});

const RIPPLES: WorkStep = { id: 'a', effect: 'ripple', parameters: { depth: 0.4 } };
const SHADED: WorkStep = { id: 'b', effect: 'paper-tooth', opacity: 0.7, seed: 'rain' };

function laid(...steps: WorkStep[]): Work {
  return { ...work, laying: { steps, seed: '1' } };
}

/** A stroke across the seam. */
const STROKE: Resist = {
  strokes: [{ width: 12, softness: 0.5, points: [-8, 10, 0.5, 20, 30, 1, 70, 40, 0.7] }],
};

/** Runs a command that was shown, into another file. @returns Its bytes. */
function again(line: string, ending = '.png'): Buffer {
  const words = wordsOf(line);
  expect(words[0]).toBe('tenter');
  const out = `again-${Math.random().toString(36).slice(2)}${ending}`;
  words[words.indexOf('--out') + 1] = out;
  const environment = { ...process.env, TENTER_TRUST: '1' };
  execFileSync(process.execPath, [command, ...words.slice(1)], { cwd: folder, env: environment });
  return readFileSync(join(folder, out));
}

/** As a shell takes a line apart. */
function wordsOf(line: string): string[] {
  const text = execFileSync('sh', ['-c', `printf '%s\\0' ${line}`], { encoding: 'utf8' });
  return text.split('\0').slice(0, -1);
}

async function expectSame(order: Pick<SaveOrder, 'work'> & Partial<SaveOrder>): Promise<Buffer> {
  const name = order.name ?? `${Math.random().toString(36).slice(2)}.png`;
  const saving = await savedBy(page, { what: 'tile', name, fit: true, ...order });
  expect(saving.state, saving.words.join('\n')).toBe('saved');
  const bytes = readFileSync(join(folder, name));
  expect(bytes.equals(again(saving.command!, name.slice(name.lastIndexOf('.')))), saving.command).toBe(true);
  return bytes;
}

it('saves a tile byte for byte as its command makes it: one step, two steps, a seed, a light', async () => {
  const one = await expectSame({ work: laid(RIPPLES) });
  const two = await expectSame({ work: laid(RIPPLES, SHADED) });
  expect(one.equals(two)).toBe(false);
  const thrown = laid(RIPPLES, { ...SHADED, seed: undefined });
  await expectSame({
    work: { ...thrown, laying: { ...thrown.laying, seed: 'a b', light: { elevation: 40 } } },
  });
});

it('on the colours of the artwork', async () => {
  const plain = await expectSame({ work: laid(RIPPLES) });
  const mask = { colours: ['#966e5f'], tolerance: 12, softness: 4.5, spare: true };
  const masked = await expectSame({ work: laid({ ...RIPPLES, mask }) });
  expect(masked.equals(plain)).toBe(false);
});

it('around a resist that was painted, over a drop layout and at another density', async () => {
  const step = { ...RIPPLES, mask: { picture: 'resist:leaf & bud', spare: true } };
  const resists = { 'leaf & bud': STROKE };
  await expectSame({ work: { ...laid(step), resists } });
  await expectSame({ work: { ...laid(step, SHADED), resists }, density: 2.5 });
});

it('with a step held off, which changes nothing of the next', async () => {
  const without = await expectSame({
    work: laid({ ...RIPPLES, held: true }, { ...SHADED, seed: undefined }),
  });
  const { seed: _, ...unseeded } = SHADED;
  const alone = await expectSame({ work: laid({ ...unseeded, seed: '1/1' }) });
  expect(without.equals(alone)).toBe(true);
});

it('as a TIFF of 16 bit, and at a density that has to be fitted', async () => {
  const samples = new Uint16Array(60 * 60 * 3).map((_, k) => 20_000 + ((k * 977) % 30_000));
  await sharp(samples, { raw: { width: 60, height: 60, channels: 3 } })
    .toColourspace('rgb16')
    .png()
    .toFile(join(folder, 'deep.png'));
  const deep = await openPage(folder, ['open', 'deep.png', '--size', '60x60mm', '--no-browser']);
  try {
    const own = await firstWork(deep);
    const order = {
      what: 'tile',
      fit: true,
      work: { ...own, laying: { steps: [SHADED], seed: '1' } },
    } as const;
    const saving = await savedBy(deep, { ...order, name: 'deep-laid.tif' });
    expect(saving.state, saving.words.join('\n')).toBe('saved');
    const bytes = readFileSync(join(folder, 'deep-laid.tif'));
    expect(bytes.equals(again(saving.command!, '.tif'))).toBe(true);
    expect((await sharp(bytes).metadata()).depth).toBe('ushort');
    const fitted = await savedBy(deep, { ...order, name: 'deep-fitted.png', density: 1.23456789 });
    expect(readFileSync(join(folder, 'deep-fitted.png')).equals(again(fitted.command!))).toBe(true);
  } finally {
    await deep.end();
  }
});

it('saves a texture alone over its ground, and layers for laying by hand', async () => {
  const alone: Work = { ...laid(RIPPLES, SHADED), tile: undefined, ground: '#88aacc', layout: 'straight' };
  await expectSame({ work: alone, density: 2 });
  const saving = await savedBy(page, { what: 'texture', name: 'hand.png', work: laid(RIPPLES), fit: true });
  expect(saving.state, saving.words.join('\n')).toBe('saved');
  expect(readFileSync(join(folder, 'hand-dark.png')).length).toBeGreaterThan(100);
});

it('saves a recipe with its resist beside it, which "tenter lay" takes', async () => {
  const step = { ...RIPPLES, mask: { picture: 'resist:leaf', spare: true } };
  const order = { work: { ...laid(step), resists: { leaf: STROKE } } };
  const made = await expectSame(order);
  const saving = await savedBy(page, { what: 'recipe', name: 'leafy', ...order });
  expect(saving.state, saving.words.join('\n')).toBe('saved');
  const recipe = JSON.parse(readFileSync(join(folder, 'leafy.json'), 'utf8'));
  expect(recipe.$schema).toContain('recipe.schema.json');
  expect(recipe.steps[0].mask.picture).toBe('leafy-leaf.png');
  const bytes = again(
    `tenter lay leafy.json sprig.png --layout drop:1/2 --size 64x48mm --plugins ripple.ts --out x`,
  );
  expect(bytes.equals(made)).toBe(true);
});

it('sends trials into a collection, and adds to it what is pinned later', async () => {
  const trial = (id: string, name: string, ...steps: WorkStep[]) => ({
    id,
    name,
    laying: { steps, seed: '3' },
  });
  const first = {
    ...laid(RIPPLES),
    trials: [trial('t1', 'in <b>rain</b>', RIPPLES), trial('t2', 'dry', SHADED)],
  };
  const order = { what: 'collection', name: 'chosen', work: first } as const;
  const saving = await savedBy(page, { ...order, trials: ['t1', 't2'] });
  expect(saving.state, saving.words.join('\n')).toBe('saved');
  const plan = () =>
    execFileSync(process.execPath, [command, 'collect', 'plan', 'chosen.json', '--plugins', 'ripple.ts'], {
      ...{ cwd: folder, encoding: 'utf8', env: { ...process.env, TENTER_TRUST: '1' } },
    });
  expect(plan()).toMatch(/\b2\b/);
  const more = { ...first, trials: [trial('t3', 'dry', RIPPLES, SHADED)] };
  expect((await savedBy(page, { ...order, work: more })).state).toBe('saved');
  const written = JSON.parse(readFileSync(join(folder, 'chosen.json'), 'utf8'));
  expect(written.recipes.map(({ name }: { name: string }) => name)).toEqual(['in-b-rain-b', 'dry', 'dry-2']);
  expect(written.tiles).toHaveLength(1);
  plan();
});

it('overwrites nothing unasked', async () => {
  const order = { what: 'tile', name: 'once.png', work: laid(RIPPLES), fit: true } as const;
  expect((await savedBy(page, order)).state).toBe('saved');
  const before = readFileSync(join(folder, 'once.png'));
  const work = laid({ ...RIPPLES, parameters: { depth: 0.9 } });
  expect((await savedBy(page, { ...order, work })).state).toBe('would replace');
  expect(readFileSync(join(folder, 'once.png')).equals(before)).toBe(true);
  expect((await savedBy(page, { ...order, work, overwrite: true })).state).toBe('saved');
  expect(readFileSync(join(folder, 'once.png')).equals(before)).toBe(false);
  const artwork = await savedBy(page, { ...order, name: 'sprig.png', overwrite: true });
  expect(artwork.state).toBe('failed');
});
