import {
  copyFileSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { writeProofPictures } from '../src/cli/proof-pictures.ts';
import { planCollection, readCollection, runItems } from '../src/collection/index.ts';
import { bookOfFolder, bookOfPlan, makeSheets } from '../src/collection/sheet/index.ts';
import type { ProofReport } from '../src/effect/prove/report.ts';
import { HOME } from '../src/effect/prove/trial.ts';
import { checkPicture } from '../src/host/check-picture.ts';
import { openShelf } from '../src/host/index.ts';
import { parseLayout } from '../src/repeat/layout.ts';
import { writeCollection, writeTile } from './collection-kit.ts';

const root = mkdtempSync(join(tmpdir(), 'tenter-inputs-'));
let folder: string;
beforeEach(async () => {
  folder = mkdtempSync(join(root, 'case-'));
  await writeTile(join(folder, 'leaf.png'));
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

const RECIPE = { summary: 'One.', steps: [{ effect: 'linen-weave', mask: { picture: 'mask.png' } }] };
const OWN = { name: 'Fault', kind: 'output', expected: 'a file other than those the result is made from' };

/** A collection file whose renders come to lie beside it. */
async function plan(entry: object, name = 'own.json') {
  const whole = {
    summary: 'Own.',
    tiles: [{ picture: 'leaf.png' }],
    recipes: [{ effect: 'linen-weave' }],
    output: { folder: '.', name: 'leaf' },
    ...entry,
  };
  const path = writeCollection(join(folder, name), whole);
  const shelf = await openShelf([]);
  const opened = await planCollection(await readCollection(path), shelf);
  return { opened, shelf };
}

async function run(entry: object, name?: string): Promise<unknown> {
  const { opened, shelf } = await plan(entry, name);
  return runItems(opened, opened.items, { shelf, overwrite: true, workers: 1 });
}

describe('a run that may replace files replaces none of its own', () => {
  it('tiles, also under another name', async () => {
    const before = readFileSync(join(folder, 'leaf.png'));
    await expect(run({})).rejects.toMatchObject({ ...OWN, received: 'one of them' });
    linkSync(join(folder, 'leaf.png'), join(folder, 'out.png'));
    const twin = run({ output: { folder: '.', name: 'out' } });
    await expect(twin).rejects.toMatchObject({
      ...OWN,
      received: `another name of ${join(folder, 'leaf.png')}`,
    });
    expect(readFileSync(join(folder, 'leaf.png'))).toEqual(before);
  });
  it('masks', async () => {
    copyFileSync(join(folder, 'leaf.png'), join(folder, 'mask.png'));
    const recipes = [{ effect: 'linen-weave', mask: { picture: 'mask.png' } }];
    await expect(run({ recipes, output: { folder: '.', name: 'mask' } })).rejects.toMatchObject(OWN);
  });
  it('recipes, which a record would replace', async () => {
    copyFileSync(join(folder, 'leaf.png'), join(folder, 'mask.png'));
    writeFileSync(join(folder, 'out.png.json'), JSON.stringify(RECIPE));
    const entry = { recipes: [{ recipe: 'out.png.json' }], output: { folder: '.', name: 'out' } };
    await expect(run(entry)).rejects.toMatchObject(OWN);
  });
  it.each(['report.json', 'report-times.json', 'out.png.json'])(
    'its collection file called %s',
    async (name) => {
      await expect(run({ output: { folder: '.', name: 'out' } }, name)).rejects.toMatchObject(OWN);
      expect(JSON.parse(readFileSync(join(folder, name), 'utf8')).summary).toBe('Own.');
    },
  );
});

describe('sheets replace nothing that they are made from', () => {
  it.each(['collection.png', 'tile-collection.png', 'swatches.html'])('%s', async (name) => {
    copyFileSync(join(folder, 'leaf.png'), join(folder, name));
    const isPage = name === 'swatches.html';
    const before = readFileSync(join(folder, name));
    if (!isPage) {
      const entry = {
        tiles: [{ picture: name, name: 'collection' }],
        output: { folder: 'made', name: 'out' },
      };
      const { opened } = await plan(entry);
      const made = makeSheets(await bookOfPlan(opened, opened.items), { folder, writesPage: false });
      await expect(made).rejects.toMatchObject(OWN);
    } else {
      const { opened } = await plan({ output: { folder: 'made', name: 'out' } });
      const book = { ...(await bookOfPlan(opened, opened.items)), sources: [join(folder, name)] };
      await expect(makeSheets(book, { folder, drawsSheets: false })).rejects.toMatchObject(OWN);
    }
    expect(readFileSync(join(folder, name))).toEqual(before);
  });
  it('the artwork that a folder was made from', async () => {
    copyFileSync(join(folder, 'leaf.png'), join(folder, 'collection.png'));
    const book = await bookOfFolder(folder).catch(() => undefined);
    expect(book).toBeUndefined();
    const picture = { layout: 'straight', widthPx: 48, heightPx: 40, widthMm: 9.6, heightMm: 8 };
    const original = { key: 'leaf', path: join(folder, 'collection.png'), picture };
    const swatches = [{ name: 'out.png', address: 'a', labels: {}, original }];
    const made = makeSheets({ summary: 'One.', folder: join(folder, 'made'), swatches }, { folder });
    await expect(made).rejects.toMatchObject(OWN);
  });
});

describe('pictures of what failed', () => {
  const failure = {
    received: 'shade 1 and 2',
    setting: HOME,
    picture: { pixels: new Uint8ClampedArray(16).fill(9), width: 2, height: 2 },
  };
  const report = {
    effect: 'ripple',
    results: [{ check: 'periodic', status: 'failed', failure }],
  } as unknown as ProofReport;

  it('get a free name unless older ones may be replaced', async () => {
    const out = join(folder, 'proof');
    mkdirSync(out);
    writeFileSync(join(folder, 'mine.png'), 'mine');
    writeFileSync(join(out, 'ripple-periodic.png'), 'mine');
    symlinkSync(join(folder, 'mine.png'), join(out, 'ripple-periodic-2.png'));
    const files = await writeProofPictures(report, out);
    expect([...files.values()]).toEqual([join(out, 'ripple-periodic-3.png')]);
    expect(readFileSync(join(out, 'ripple-periodic.png'), 'utf8')).toBe('mine');
    expect(readFileSync(join(folder, 'mine.png'), 'utf8')).toBe('mine');
    await writeProofPictures(report, out, true);
    expect(readFileSync(join(out, 'ripple-periodic.png'), 'utf8')).not.toBe('mine');
  });
});

it('the sheet and the view from afar are not written to one file', async () => {
  const request = { picture: join(folder, 'leaf.png'), layout: parseLayout('straight'), overwrite: true };
  mkdirSync(join(folder, 'real'));
  symlinkSync(join(folder, 'real'), join(folder, 'linked'));
  for (const [sheet, afar] of [
    ['x.png', 'x.png'],
    ['real/x.png', 'linked/x.png'],
    ['x.png', './real/../x.png'],
  ]) {
    const checking = checkPicture({ ...request, sheet: `${folder}/${sheet}`, afar: `${folder}/${afar}` });
    await expect(checking).rejects.toMatchObject({ kind: 'usage', expected: 'a file of its own' });
  }
});
