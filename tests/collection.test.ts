import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sha256 } from '../src/collection/disk/hash.ts';
import {
  collectionSchema,
  gatherReport,
  itemsOfShard,
  type Plan,
  planCollection,
  publishedSchemas,
  readCollection,
  runItems,
  writeReport,
} from '../src/collection/index.ts';
import { openShelf, type Shelf } from '../src/host/index.ts';
import { picturesIn, RIPPLE, tenter, writeCollection, writeTile } from './collection-kit.ts';

let folder: string;
let shelf: Shelf;
let plugin: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-collection-'));
  plugin = join(folder, 'ripple.ts');
  writeFileSync(plugin, RIPPLE);
  mkdirSync(join(folder, 'art'));
  for (const [index, name] of ['sprig', 'stripe', 'leaf'].entries()) {
    await writeTile(join(folder, 'art', `${name}.png`), 48, 40, 12 * index);
  }
  shelf = await openShelf([plugin], { consent: { trust: true } });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SPRING = {
  summary: 'Spring.',
  tiles: [{ picture: 'art/*.png' }],
  recipes: [{ effect: 'ripple' }],
  vary: { seed: { count: 2 }, opacity: [0.5, 1] },
};

async function planOf(entry: unknown, out: string, options = {}): Promise<Plan> {
  const file = writeCollection(join(folder, `${out}.json`), entry);
  return planCollection(await readCollection(file), shelf, { out: join(folder, out), ...options });
}

async function messageOf(entry: unknown): Promise<string> {
  const error = await planOf(entry, 'wrong').catch((fault) => fault);
  expect(error.name).toBe('Fault');
  return error.message;
}

describe('a collection file', () => {
  it('may hold remarks and commas too many, and is what the published schema says', async () => {
    const text = `{ // spring\n "summary": "Spring.", /* two */ "tiles": [{ "picture": "art/sprig.png" }],\n "recipes": [{ "effect": "ripple" },],\n}`;
    expect((await planOf(text, 'remarks')).items.map(({ name }) => name)).toEqual(['sprig/ripple.png']);
    const published = new URL('../presets/collection.schema.json', import.meta.url);
    expect(JSON.parse(readFileSync(published, 'utf8'))).toEqual(
      JSON.parse(JSON.stringify(publishedSchemas()['collection.schema.json'])),
    );
    expect(collectionSchema.safeParse(SPRING).success).toBe(true);
  });
  it('has all its faults listed at once, each with its line', async () => {
    const lines = [
      '{',
      '  "summary": "Spring.",',
      '  "tiles": [',
      '    { "picture": "art/sprig.png", "layout": "dropp" },',
      '    { "picture": "nothing/*.png" },',
      '    { "picture": "art/leaf.png", "size": "32x27km" }',
      '  ],',
      '  "recipes": [',
      '    { "effect": "rippel" },',
      '    { "effect": "ripple", "vary": { "ripple.length": ["4 deg"] } }',
      '  ],',
      '  "vary": {',
      '    "opacty": [1],',
      '    "opacity": [2]',
      '  },',
      '  "except": [{ "tile": "sprog" }]',
      '}',
    ];
    const message = await messageOf(lines.join('\n'));
    for (const part of [
      'line 4, tiles[0].layout: expected one of straight',
      'line 5, tiles[1].picture: no picture fits this pattern: "nothing/*.png"',
      'line 6, tiles[2].size: expected a width and a height with a unit',
      'line 9, recipes[0]: no effect is called "rippel". Did you mean "ripple"?',
      'line 10, recipes[1].vary.ripple.length: expected a number from 1 to 50 mm',
      'line 13, vary.opacty: expected an axis',
      'line 14, vary.opacity: expected a number from 0 to 1',
      'line 16, except[0].tile: nothing is called "sprog"',
    ]) {
      expect(message).toContain(part);
    }
  });
  it('has faults of shape and of the JSON itself told with their lines', async () => {
    const shape = await messageOf(
      '{\n "summary": "",\n "tiles": [{ "pictures": "a.png" }],\n "recipes": [] }',
    );
    for (const part of [
      'line 2, summary',
      'line 3, tiles[0].pictures: no such property. Did you mean "picture"?',
      'line 4, recipes',
    ]) {
      expect(shape).toContain(part);
    }
    expect(await messageOf('{\n "summary": "a"\n "tiles": [] }')).toContain(
      'line 3, the JSON itself: comma expected',
    );
    expect(await messageOf('{ "summary": "a",\n "summary": "b", "tiles": [], "recipes": [] }')).toContain(
      'line 2, summary: it stands here twice',
    );
  });
  it('refuses unreadable tiles, and tiles of no known size', async () => {
    writeFileSync(join(folder, 'text.png'), 'not a picture');
    expect(await messageOf({ ...SPRING, tiles: [{ picture: 'text.png' }] })).toMatch(
      /line 5, tiles\[0\].picture: expected a whole picture/,
    );
    const bare = join(folder, 'bare.webp');
    await sharp({ create: { width: 8, height: 8, channels: 3, background: '#fff' } })
      .webp()
      .toFile(bare);
    expect(await messageOf({ ...SPRING, tiles: [{ picture: 'bare.webp' }] })).toContain(
      'expected the size of the repeat for tile "bare"',
    );
  });
  it('says of a picture whose name is not UTF-8 that it is its name', async (context) => {
    mkdirSync(join(folder, 'old'), { recursive: true });
    const picture = readFileSync(join(folder, 'art/leaf.png'));
    const name = Buffer.concat([
      Buffer.from(join(folder, 'old/bl')),
      Buffer.from([0xe4]),
      Buffer.from('tter.png'),
    ]);
    try {
      writeFileSync(name, picture);
    } catch {
      return context.skip('this disk takes no such names');
    }
    expect(await messageOf({ ...SPRING, tiles: [{ picture: 'old/*.png' }] })).toMatch(
      /line 5, tiles\[0\].picture: the name of .*bl.tter.png is not UTF-8; rename the file/,
    );
  });
  it('refuses two outputs of one name and names both, and unknown words', async () => {
    const twins = await messageOf({ ...SPRING, output: { name: '{tile}-{seed}' } });
    expect(twins).toContain(
      'two renders would be called "leaf-1.png": tile art/leaf.png, recipe ripple, seed 1, opacity 0.5, and tile art/leaf.png, recipe ripple, seed 1, opacity 1',
    );
    expect(await messageOf({ ...SPRING, output: { name: '{tile}-{sead}' } })).toContain(
      'Did you mean "seed"?',
    );
  });
  it.each(['../{tile}', '/tmp/{tile}', 'a/../../{tile}', 'C:{tile}'])(
    'refuses %s: it leads out of the folder',
    async (name) => {
      expect(await messageOf({ ...SPRING, output: { name: `${name}-{seed}-{opacity}` } })).toContain(
        'a path inside the output folder',
      );
    },
  );
  it('refuses a link that leads out of the output folder', async () => {
    mkdirSync(join(folder, 'linked'));
    symlinkSync(folder, join(folder, 'linked', 'sprig'));
    await expect(planOf(SPRING, 'linked')).rejects.toThrow(/a place inside .*linked/);
  });
  it('refuses ten million combinations with their number, before one is made', async () => {
    const many = { ...SPRING, vary: { seed: { count: 1000 }, opacity: { from: 0, to: 1, count: 3334 } } };
    await expect(planOf(many, 'many')).rejects.toThrow(
      /at most 100000 combinations .* received 10002000 of them.*--most 10002000/,
    );
    const some = { ...SPRING, vary: { seed: { count: 50 } } };
    await expect(planOf(some, 'some', { most: 100 })).rejects.toThrow('150 of them');
    expect((await planOf(some, 'some', { most: 150 })).items).toHaveLength(150);
  });
  it('makes axes of lists, ranges and counts, leaves out by rule, and varies only what a recipe has', async () => {
    const entry = {
      ...SPRING,
      recipes: [{ effect: 'ripple' }, { name: 'cloth', effect: 'linen-weave' }],
      vary: { seed: { count: 2, from: 7 }, 'ripple.depth': { from: 0.1, to: 0.3, step: 0.1 } },
      except: [
        { tile: 's*', recipe: 'ripple', 'ripple.depth': [0.1, 0.2] },
        { seed: 8, tile: 'leaf' },
      ],
    };
    const { items, leftOut } = await planOf(entry, 'axes');
    // Three tiles x two seeds x (three depths + one cloth) = 24; 2 x 2 x 2 and 4 left out.
    expect([items.length, leftOut]).toEqual([12, 12]);
    expect(new Set(items.map(({ labels }) => labels['ripple.depth']))).toEqual(
      new Set(['0.1', '0.2', '0.3', undefined]),
    );
    expect(items.filter(({ labels }) => labels.recipe === 'cloth').map(({ name }) => name)).toContain(
      'sprig/cloth-7.png',
    );
  });
  it('starts from a folder of pictures, right at once', async () => {
    const made = await tenter(folder, ['collect', 'start', 'art', '--out', 'started.json']);
    expect([made.code, made.err]).toEqual([0, '']);
    const text = readFileSync(join(folder, 'started.json'), 'utf8');
    expect(text).toContain('its file states 127 dpi');
    const { items } = await planOf(text, 'started');
    expect(items).toHaveLength(3 * (2 * 4 + 2));
    expect(items[0].inputs.repeat).toMatchObject({ widthMm: 9.6, heightMm: 8, widthPx: 48, heightPx: 40 });
  });
});

describe('a run', () => {
  it('gives the bytes of "lay", whatever the number of workers', async () => {
    const results = [];
    for (const workers of [1, 2, 4]) {
      const plan = await planOf(SPRING, `workers-${workers}`);
      const result = await runItems(plan, plan.items, { shelf, workers });
      expect(result).toMatchObject({ made: 12, kept: 0, failed: [], left: 0 });
      await writeReport(plan);
      results.push(picturesIn(plan.folder));
    }
    expect(results[1]).toEqual(results[0]);
    expect(results[2]).toEqual(results[0]);
    expect(results[0].size).toBe(12);
    const laid = await tenter(folder, [
      'lay',
      'ripple',
      'art/leaf.png',
      '--seed',
      '2',
      '--opacity',
      '0.5',
      '--out',
      'laid.png',
      '--plugins',
      plugin,
      '--trust',
    ]);
    expect(laid.err).toBe('');
    expect(results[0].get('leaf/ripple-2-0.5.png')).toBe(sha256(readFileSync(join(folder, 'laid.png'))));
    const report = (count: number) => readFileSync(join(folder, `workers-${count}`, 'report.json'), 'utf8');
    expect(report(2)).toBe(report(1));
  });
  it('does shared work once, and says so', async () => {
    const plan = await planOf({ ...SPRING, vary: { opacity: [0.25, 0.5, 0.75, 1] } }, 'shared');
    const { saved, made } = await runItems(plan, plan.items, { shelf, workers: 1 });
    // Three tiles of one repeat, four strengths: one model, one layer, three tiles to decode.
    expect(made).toBe(12);
    expect(saved).toEqual({ decodes: 9, tileChecks: 9, prepares: 11, paints: 11 });
  });
  it('makes only what is missing, changed or harmed, and keeps what was worked on', async () => {
    const plan = await planOf(SPRING, 'again');
    await runItems(plan, plan.items, { shelf });
    const before = picturesIn(plan.folder);
    expect(await runItems(plan, plan.items, { shelf })).toMatchObject({ made: 0, kept: 12 });
    const [first, second, third] = plan.items.map(({ name }) => join(plan.folder, name));
    rmSync(first);
    writeFileSync(`${second}.json`, readFileSync(`${second}.json`, 'utf8').slice(0, 200));
    writeFileSync(third, 'by hand');
    expect((await gatherReport(plan)).report.counts).toMatchObject({ made: 9, missing: 3 });
    const mended = await runItems(plan, plan.items, { shelf });
    expect(mended).toMatchObject({ made: 3, kept: 9, left: 0, failed: [] });
    // The second has lost its record, so it might be anybody's: it is kept, and so is what is left of the record.
    const aside = readdirSync(join(third, '..')).filter((name) => name.includes('.changed-'));
    expect(aside).toHaveLength(3);
    expect(aside.map((name) => readFileSync(join(third, '..', name), 'utf8'))).toContain('by hand');
    for (const name of aside) rmSync(join(third, '..', name));
    expect(picturesIn(plan.folder)).toEqual(before);
    const other = await planOf(
      { ...SPRING, recipes: [{ effect: 'ripple', parameters: { depth: 0.6 } }] },
      'again',
    );
    expect(await runItems(other, other.items, { shelf })).toMatchObject({ made: 12, kept: 0, failed: [] });
  });
  it('goes on past items that fail, and says how to make each alone', async () => {
    const seeds = Array.from({ length: 9 }, (_, index) => `s${index}`);
    const vary = { seed: [...seeds, 'bad-throw', 'bad-hang'] };
    const plan = await planOf({ ...SPRING, vary }, 'poison');
    const events: string[] = [];
    const result = await runItems(plan, plan.items, {
      shelf,
      secondsPerCall: 1,
      plugins: [plugin],
      onEvent: (event) => events.push(event.event),
    });
    expect(result).toMatchObject({ made: 27, left: 0 });
    expect(result.failed.map(({ name }) => name)).toEqual(
      ['leaf', 'sprig', 'stripe'].flatMap((tile) => [
        `${tile}/ripple-bad-hang.png`,
        `${tile}/ripple-bad-throw.png`,
      ]),
    );
    expect(events.filter((event) => event === 'retry')).toHaveLength(3);
    const [hung, thrown] = result.failed;
    expect(hung).toMatchObject({ attempts: 2, reason: expect.stringContaining('no progress for 1 s') });
    expect(thrown).toMatchObject({ attempts: 1, reason: expect.stringContaining('Error: ink') });
    const alone = await tenter(process.cwd(), [...thrown.command.split(' ').slice(1), '--trust']);
    expect(alone.code).toBe(6);
    expect(alone.out).toContain('Error: ink');
    expect((await gatherReport(plan)).report.counts).toMatchObject({ made: 27, failed: 6, missing: 0 });
  });
  it('in parts on several machines comes to the report of one', async () => {
    const whole = await planOf(SPRING, 'whole');
    await runItems(whole, whole.items, { shelf });
    await writeReport(whole);
    const parts = await planOf(SPRING, 'parts');
    const sizes = [];
    for (const index of [3, 1, 2]) {
      const items = itemsOfShard(parts.items, { index, count: 3 });
      sizes.push(items.length);
      await runItems(parts, items, { shelf });
    }
    expect(sizes).toEqual([4, 4, 4]);
    await writeReport(parts);
    expect(picturesIn(parts.folder)).toEqual(picturesIn(whole.folder));
    const text = (plan: Plan) => readFileSync(join(plan.folder, 'report.json'), 'utf8');
    expect(text(parts).replaceAll(parts.hash, whole.hash)).toBe(text(whole));
  });
  it('twice at once does no work twice and no harm', async () => {
    const plan = await planOf({ ...SPRING, vary: { seed: { count: 8 } } }, 'twice');
    const runs = await Promise.all([1, 2].map(() => runItems(plan, plan.items, { shelf, workers: 2 })));
    expect(runs.map(({ made }) => made).reduce((a, b) => a + b)).toBe(24);
    for (const run of runs) expect(run).toMatchObject({ failed: [], left: 0 });
    expect((await gatherReport(plan)).report.counts).toMatchObject({ made: 24, missing: 0 });
    expect(readdirSync(join(plan.folder, '.tenter', 'claims'))).toEqual([]);
  });
  it('keeps within its memory, and refuses what cannot', async () => {
    const plan = await planOf(SPRING, 'memory');
    const small = await runItems(plan, plan.items.slice(0, 2), { shelf, workers: 1, memory: 100e6 });
    expect(small.failed).toHaveLength(2);
    expect(small.failed[0].reason).toMatch(/fits into 100 MB of memory .* --memory \d+MB/);
    expect(await runItems(plan, plan.items.slice(0, 2), { shelf, workers: 1, memory: 300e6 })).toMatchObject({
      made: 2,
    });
  });
  it('renders the chosen at another density, in a folder of their own', async () => {
    writeCollection(join(folder, 'picks.json'), SPRING);
    writeFileSync(join(folder, 'picks.txt'), '# favourites\nleaf/ripple-1-1\nsprig/ripple-2-0.5.png\n');
    const args = [
      'collect',
      'run',
      'picks.json',
      '--only',
      'picks.txt',
      '--dpi',
      '254',
      '--plugins',
      plugin,
      '--trust',
    ];
    const made = await tenter(folder, args);
    expect([made.code, made.out]).toEqual([0, expect.stringContaining('made     2')]);
    expect([...picturesIn(join(folder, 'made-254dpi')).keys()]).toEqual([
      'leaf/ripple-1-1.png',
      'sprig/ripple-2-0.5.png',
    ]);
    const facts = await sharp(join(folder, 'made-254dpi/leaf/ripple-1-1.png')).metadata();
    expect(facts).toMatchObject({ width: 96, height: 80, density: 254 });
    expect(existsSync(join(folder, 'made'))).toBe(false);
  });
});
