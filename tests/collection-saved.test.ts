import { mkdirSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { lookForItems } from '../src/collection/disk/standing.ts';
import { type Plan, planCollection, readCollection, runItems } from '../src/collection/index.ts';
import { openShelf, type Shelf } from '../src/host/index.ts';
import { picturesIn, RIPPLE, writeCollection, writeTile } from './collection-kit.ts';

let folder: string;
let shelf: Shelf;
let count = 0;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-saved-'));
  const plugin = join(folder, 'ripple.ts');
  writeFileSync(plugin, RIPPLE);
  mkdirSync(join(folder, 'art'));
  shelf = await openShelf([plugin], { consent: { trust: true } });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeEach(async () => {
  await writeTile(join(folder, 'art/leaf.png'));
  await writeTile(join(folder, 'art/mask.png'), 48, 40, 3);
});

const SAVED = {
  summary: 'Saved.',
  tiles: [{ picture: 'art/leaf.png' }],
  recipes: [{ effect: 'ripple' }],
  vary: { seed: { count: 3 } },
};

async function planOf(entry: unknown, out = `out-${++count}`): Promise<Plan> {
  const file = writeCollection(join(folder, 'saved.json'), entry);
  return planCollection(await readCollection(file), shelf, { out: join(folder, out) });
}

const RECIPE = {
  $schema: 'recipe',
  summary: 'Masked.',
  steps: [{ effect: 'ripple', mask: { picture: 'art/mask.png' } }],
};

describe.each([
  ['a tile', 'leaf', SAVED],
  ['a mask', 'mask', { ...SAVED, recipes: [{ effect: 'ripple', mask: { picture: 'art/mask.png' } }] }],
  ['a picture that a recipe names', 'mask', { ...SAVED, recipes: [{ recipe: './masked.json' }] }],
])('%s that is saved after it was planned', (_, saved, entry) => {
  it.each([false, true])('is not recorded as what it was (verify: %s)', async (verify) => {
    writeFileSync(
      join(folder, 'masked.json'),
      JSON.stringify({ summary: RECIPE.summary, steps: RECIPE.steps }),
    );
    const plan = await planOf(entry);
    expect(plan.items).toHaveLength(3);
    await writeTile(join(folder, `art/${saved}.png`), 48, 40, 60);
    const run = await runItems(plan, plan.items, { shelf, verify });
    expect(run).toMatchObject({ made: 0, left: 0 });
    expect(run.failed).toHaveLength(3);
    for (const { reason } of run.failed) expect(reason).toContain('saved since');
    expect((await lookForItems(plan, plan.items)).made.size).toBe(0);
    // Planned again it is made from what was saved, as in a folder that never knew the other.
    const again = await planOf(entry, `out-${count}`);
    expect(await runItems(again, again.items, { shelf, verify })).toMatchObject({ made: 3, failed: [] });
    const fresh = await planOf(entry);
    await runItems(fresh, fresh.items, { shelf });
    expect(picturesIn(again.folder)).toEqual(picturesIn(fresh.folder));
  });
});

it('a tile that is saved between two of its renders spoils neither', async () => {
  const dpis = { ...SAVED, vary: { dpi: [127, 254, 381, 508, 635, 762] } };
  const plan = await planOf(dpis);
  let isSaved = false;
  const before = readFileSync(join(folder, 'art/leaf.png'));
  await writeTile(join(folder, 'art/other.png'), 48, 40, 60);
  const run = await runItems(plan, plan.items, {
    shelf,
    workers: 1,
    onEvent: ({ event }) => {
      if (event !== 'made' || isSaved) return;
      isSaved = true;
      writeFileSync(join(folder, 'art/leaf.png'), readFileSync(join(folder, 'art/other.png')));
    },
  });
  expect(run.made + run.failed.length).toBe(6);
  writeFileSync(join(folder, 'art/leaf.png'), before);
  const fresh = await planOf(dpis);
  await runItems(fresh, fresh.items, { shelf });
  const right = picturesIn(fresh.folder);
  for (const [name, hash] of picturesIn(plan.folder)) expect(right.get(name), name).toBe(hash);
});

it('a tile that is only touched is made all the same', async () => {
  const plan = await planOf(SAVED);
  utimesSync(join(folder, 'art/leaf.png'), new Date(), new Date());
  expect(await runItems(plan, plan.items, { shelf })).toMatchObject({ made: 3, failed: [] });
});

it('a picture that is listed with two layouts is judged for each', async () => {
  // It closes as it stands, and not where every other column is shifted by half.
  const tiles = ['straight', 'drop:1/2'].map((layout, index) => ({
    picture: 'art/leaf.png',
    layout,
    name: `leaf-${index}`,
  }));
  const samples = Uint8Array.from({ length: 48 * 40 * 3 }, (_, at) => {
    return 150 + 80 * Math.sin((2 * Math.PI * Math.floor(at / 144)) / 40);
  });
  await sharp(samples, { raw: { width: 48, height: 40, channels: 3 } })
    .withMetadata({ density: 127 })
    .png()
    .toFile(join(folder, 'art/leaf.png'));
  const both = await planOf({ ...SAVED, tiles, vary: { seed: { count: 1 } } });
  await runItems(both, both.items, { shelf, workers: 1 });
  for (const item of both.items) {
    const alone = await planOf({
      ...SAVED,
      tiles: [tiles[Number(item.labels.tile.at(-1))]],
      vary: { seed: { count: 1 } },
    });
    await runItems(alone, alone.items, { shelf });
    const verdict = async (plan: Plan) => {
      const { made } = await lookForItems(plan, plan.items);
      return [...made.values()].find(({ name }) => name === item.name)?.tileSeams;
    };
    expect(await verdict(both), item.name).toEqual(await verdict(alone));
    expect(await verdict(both)).toBeDefined();
  }
  const { made } = await lookForItems(both, both.items);
  expect(new Set([...made.values()].map(({ tileSeams }) => tileSeams.closes)).size).toBe(2);
});
