import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lookForItems } from '../src/collection/disk/standing.ts';
import { type Plan, planCollection, readCollection, runItems, writeReport } from '../src/collection/index.ts';
import { bookOfPlan, makeSheets } from '../src/collection/sheet/index.ts';
import { openShelf, type Shelf } from '../src/host/index.ts';
import { RIPPLE, writeCollection, writeTile } from './collection-kit.ts';

let folder: string;
let shelf: Shelf;
let count = 0;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-links-'));
  const plugin = join(folder, 'ripple.ts');
  writeFileSync(plugin, RIPPLE);
  mkdirSync(join(folder, 'art'));
  await writeTile(join(folder, 'art', 'leaf.png'));
  shelf = await openShelf([plugin], { consent: { trust: true } });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A plan of two renders in an output folder of its own. */
async function freshPlan(): Promise<Plan> {
  const file = writeCollection(join(folder, 'links.json'), {
    summary: 'Links.',
    tiles: [{ picture: 'art/leaf.png' }],
    recipes: [{ effect: 'ripple' }],
    vary: { seed: { count: 2 } },
  });
  const out = join(folder, `out-${++count}`);
  mkdirSync(out);
  return planCollection(await readCollection(file), shelf, { out });
}

/** A folder of somebody else's, with names in it such as a run leaves behind, and what must stay of it. */
function elsewhere(): { path: string; check(): void } {
  const path = join(folder, `elsewhere-${count}`);
  const names = [
    'holiday.jpg',
    'report.json',
    'collection.png',
    'swatches.html',
    '0b0e3f1c-52f0-4dc1-9d5f-6a1f5f3f0a11/diary.txt',
    '0b0e3f1c-52f0-4dc1-9d5f-6a1f5f3f0a11.json',
    'work/0b0e3f1c-52f0-4dc1-9d5f-6a1f5f3f0a11/diary.txt',
    `claims/${'ab'.repeat(32)}`,
    'owners/letter.txt',
    `${'ab'.repeat(32)}`,
  ];
  for (const name of names) {
    mkdirSync(dirname(join(path, name)), { recursive: true });
    writeFileSync(join(path, name), `mine: ${name}`);
  }
  const before = readdirSync(path, { recursive: true }).sort();
  return {
    path,
    check: () => {
      expect(readdirSync(path, { recursive: true }).sort()).toEqual(before);
      for (const name of names) expect(readFileSync(join(path, name), 'utf8')).toBe(`mine: ${name}`);
    },
  };
}

function linkTo(plan: Plan, name: string, target: string): string {
  const path = join(plan.folder, name);
  mkdirSync(dirname(path), { recursive: true });
  symlinkSync(target, path);
  return path;
}

describe('a link in an output folder', () => {
  it.each(['.tenter', '.tenter/work', '.tenter/claims', '.tenter/owners', '.tenter/failures'])(
    'in the place of %s is refused, and what it leads to is left alone',
    async (name) => {
      const plan = await freshPlan();
      const theirs = elsewhere();
      const path = linkTo(plan, name, theirs.path);
      const refused = { name: 'Fault', kind: 'output', received: expect.stringContaining('a link') };
      await expect(runItems(plan, plan.items, { shelf })).rejects.toMatchObject(refused);
      theirs.check();
      expect(lstatSync(path).isSymbolicLink()).toBe(true);
    },
  );
  it.each(['report.json', 'report-times.json'])('in the place of %s is refused', async (name) => {
    const plan = await freshPlan();
    const theirs = elsewhere();
    linkTo(plan, name, join(theirs.path, 'report.json'));
    await expect(writeReport(plan)).rejects.toMatchObject({ kind: 'output' });
    theirs.check();
  });
  it.each(['picture', 'folder'])('in the place of a %s is refused', async (place) => {
    const plan = await freshPlan();
    const theirs = elsewhere();
    const [{ name }] = plan.items;
    const target = place === 'folder' ? theirs.path : join(theirs.path, 'collection.png');
    linkTo(plan, place === 'folder' ? dirname(name) : name, target);
    for (const overwrite of [false, true]) {
      const running = runItems(plan, plan.items, { shelf, overwrite });
      await expect(running).rejects.toMatchObject({ kind: 'output' });
    }
    theirs.check();
    expect(readdirSync(join(plan.folder, '.tenter/work'))).toEqual([]);
  });
  it('in the place of a sidecar fails its render and no other', async () => {
    const plan = await freshPlan();
    const theirs = elsewhere();
    linkTo(plan, `${plan.items[1].name}.json`, join(theirs.path, 'report.json'));
    for (const overwrite of [false, true]) {
      const { failed } = await runItems(plan, plan.items, { shelf, overwrite });
      expect(failed.map(({ name }) => name)).toEqual([plan.items[1].name]);
      expect(failed[0].reason).toContain('a link');
    }
    theirs.check();
    expect((await lookForItems(plan, plan.items)).made.size).toBe(1);
    expect(readdirSync(join(plan.folder, '.tenter/work'))).toEqual([]);
  });
  it.each(['sheets', 'sheets/collection.png', 'sheets/swatches.html'])(
    'in the place of %s is refused',
    async (name) => {
      const plan = await freshPlan();
      await runItems(plan, plan.items, { shelf });
      const theirs = elsewhere();
      linkTo(plan, name, name === 'sheets' ? theirs.path : join(theirs.path, name.slice(7)));
      const book = await bookOfPlan(plan, plan.items);
      const making = makeSheets(book, { folder: join(plan.folder, 'sheets') });
      await expect(making).rejects.toMatchObject({ kind: 'output' });
      theirs.check();
    },
  );
  it('that stands for the output folder itself is the choice of its user', async () => {
    const plan = await freshPlan();
    const real = `${plan.folder}-real`;
    mkdirSync(real);
    rmSync(plan.folder, { recursive: true });
    symlinkSync(real, plan.folder);
    expect(await runItems(plan, plan.items, { shelf })).toMatchObject({ made: 2, failed: [] });
    await writeReport(plan);
    const made = await makeSheets(await bookOfPlan(plan, plan.items), {
      folder: join(plan.folder, 'sheets'),
    });
    expect(made.shown).toBe(2);
    expect(existsSync(join(real, plan.items[0].name))).toBe(true);
  });
});

describe('a state folder', () => {
  it('keeps what is not of a form that this program gives its own', async () => {
    const plan = await freshPlan();
    const gone = '0b0e3f1c-52f0-4dc1-9d5f-6a1f5f3f0a11';
    const names = [
      '.tenter/work/notes.txt',
      '.tenter/work/holiday/diary.txt',
      `.tenter/work/${gone}/diary.txt`,
      '.tenter/owners/letter.txt',
      '.tenter/owners/letter.json',
      '.tenter/claims/letter',
    ];
    for (const name of names) {
      mkdirSync(dirname(join(plan.folder, name)), { recursive: true });
      writeFileSync(join(plan.folder, name), 'mine');
    }
    writeFileSync(join(plan.folder, `.tenter/work/${gone}/${'ab'.repeat(32)}.png`), 'half');
    expect(await runItems(plan, plan.items, { shelf })).toMatchObject({ made: 2, failed: [] });
    for (const name of names) expect(readFileSync(join(plan.folder, name), 'utf8'), name).toBe('mine');
    expect(readdirSync(join(plan.folder, `.tenter/work/${gone}`))).toEqual(['diary.txt']);
  });
});
