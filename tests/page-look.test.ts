import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { LookOrder } from '../src/page/words/look.ts';
import type { News } from '../src/page/words/news.ts';
import type { WorkStep } from '../src/page/words/work.ts';
import { RIPPLE, tenter, writeTile } from './collection-kit.ts';
import { lookOf, type OpenedPage, openPage, savedBy, untilNews } from './page-kit.ts';

let folder: string;
const opened: OpenedPage[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-page-look-'));
  writeFileSync(join(folder, 'ripple.ts'), RIPPLE);
  await writeTile(join(folder, 'sprig.png'), 60, 40, 40);
  await writeTile(join(folder, 'twig.png'), 48, 48, 10);
});
afterAll(async () => {
  for (const page of opened) await page.end();
  rmSync(folder, { recursive: true, force: true });
});

const LOADED = ['--plugins', 'ripple.ts', '--trust', '--no-browser'];

async function open(...words: string[]): Promise<OpenedPage> {
  const page = await openPage(folder, words);
  opened.push(page);
  return page;
}

async function orderOf(page: OpenedPage, ...steps: WorkStep[]): Promise<LookOrder> {
  const { tile, ground, layout, size } = (await page.begin()).works[0].work;
  return {
    tile,
    ground,
    layout,
    size,
    laying: { steps, seed: '1' },
    resists: {},
    density: 1,
    quality: 'finished',
  };
}

it('shows at the tile’s own density the very pixels that are saved', async () => {
  const page = await open('open', 'sprig.png', '--size', '60x40mm', '--layout', 'drop:1/2', ...LOADED);
  const step: WorkStep = { id: 'a', effect: 'ripple', mask: { picture: 'resist:r', spare: true } };
  const resists = { r: { strokes: [{ width: 16, softness: 0.3, points: [-5, 8, 1, 30, 20, 1] }] } };
  const order = { ...(await orderOf(page, step)), resists };
  const { look, pixels } = await lookOf(await page.ask('look', order));
  expect([look.width, look.height, look.layout]).toEqual([60, 40, 'drop:1/2']);
  expect(look.laidOn.a).toBeGreaterThan(0.5);
  expect(look.laidOn.a).toBeLessThan(0.95);
  const { work } = (await page.begin()).works[0];
  const saving = await savedBy(page, {
    ...{ what: 'tile', name: 'saved.png', fit: true },
    work: { ...work, laying: order.laying, resists },
  });
  expect(saving.state, saving.words.join()).toBe('saved');
  const saved = await sharp(join(folder, 'saved.png')).ensureAlpha().raw().toBuffer();
  let off = 0;
  for (let k = 0; k < saved.length; k++) off = Math.max(off, Math.abs(saved[k] - pixels[k]));
  expect(off).toBeLessThanOrEqual(1);
  const bare = await lookOf(await page.ask('look', { ...order, laying: { steps: [], seed: '1' } }));
  const artwork = await sharp(join(folder, 'sprig.png')).ensureAlpha().raw().toBuffer();
  expect(Buffer.from(bare.pixels).equals(artwork)).toBe(true);
});
it('leaves out what is held, and what follows it stays the same cloth', async () => {
  const page = opened[0];
  const [held, next]: WorkStep[] = [
    { id: 'a', effect: 'ripple', held: true },
    { id: 'b', effect: 'ripple', parameters: { length: 9 } },
  ];
  const seen = await lookOf(await page.ask('look', await orderOf(page, held, next)));
  expect(Object.keys(seen.look.reports)).toEqual(['b']);
  const alone = await lookOf(await page.ask('look', await orderOf(page, { ...next, seed: '1/1' })));
  expect(Buffer.from(seen.pixels).equals(Buffer.from(alone.pixels))).toBe(true);
});
it('says whether an artwork closes, and over what it would', async () => {
  const page = opened[0];
  const { tile } = await orderOf(page);
  const answer = await (
    await page.ask('check', { tile, layout: 'straight', size: { width: 60, height: 40 } })
  ).json();
  expect(['closes', 'look', 'open']).toContain(answer.grade);
  expect(answer.repeat).toMatch(/repeat/);
});
it('opens a folder, a recipe and a collection, and begins with nothing where nothing is named', async () => {
  const made = join(folder, 'tiles');
  mkdirSync(made);
  await writeTile(join(made, 'a.png'), 48, 48, 10);
  await writeTile(join(made, 'b.png'), 48, 48, 20);
  writeFileSync(join(made, 'c.png'), 'no picture');
  const many = await (await open('open', 'tiles', ...LOADED)).begin();
  expect(many.tiles.map(({ name }) => name)).toEqual(['a', 'b']);
  expect(many.faults.join()).toContain('c.png');
  expect(many.folder).toBe(made);
  const recipe = { summary: 'Ripples.', steps: [{ effect: 'ripple', mask: { picture: 'twig.png' } }] };
  writeFileSync(join(folder, 'rippled.json'), JSON.stringify(recipe));
  const page = await open('open', 'rippled.json', ...LOADED);
  const one = await page.begin();
  const [{ work }] = one.works;
  expect(work.tile).toBeUndefined();
  expect(work.laying.steps[0].mask?.picture).toMatch(/^opened:[0-9a-f]{16}$/);
  expect(one.tiles).toEqual([]);
  expect(one.recipes.map(({ name }) => name)).toContain('rippled');
  writeFileSync(
    join(folder, 'spring.json'),
    JSON.stringify({
      summary: 'Spring.',
      output: { folder: 'made', name: '{tile}-{recipe}' },
      tiles: [{ picture: 'twig.png', size: '48x48mm', layout: 'brick:1/2' }],
      recipes: [{ effect: 'ripple' }],
    }),
  );
  for (const verb of ['run', 'sheet']) {
    const { code, err } = await tenter(folder, [
      'collect',
      verb,
      'spring.json',
      '--plugins',
      'ripple.ts',
      '--trust',
    ]);
    expect(code, err).toBe(0);
  }
  const book = await open('open', 'spring.json', ...LOADED);
  const begin = await book.begin();
  expect(begin.tiles.map(({ layout, size }) => ({ layout, size }))).toEqual([
    { layout: 'brick:1/2', size: { width: 48, height: 48 } },
  ]);
  expect(begin.recipes[0].name).toBe('ripple');
  expect(begin.collections).toEqual(['spring.json']);
  const { address } = await (await book.ask('collection', { name: 'spring.json' })).json();
  const sheet = await fetch(book.address.origin + address);
  expect(sheet.status).toBe(200);
  expect(sheet.headers.get('content-security-policy')).toMatch(/^sandbox allow-scripts/);
  expect(sheet.headers.get('content-security-policy')).not.toContain('allow-same-origin');
  expect(await sheet.text()).toContain('id="book"');
  expect((await fetch(book.address.origin + address)).status).toBe(404);
  expect((await book.ask('collection', { name: '../spring.json' })).status).toBe(400);
  const bare = join(folder, 'nowhere');
  mkdirSync(bare);
});
it('goes on where a design was left, with what the command says of it now', async () => {
  const flags = ['open', 'twig.png', '--size', '48x48mm', ...LOADED];
  const page = await open(...flags);
  const [kept] = (await page.begin()).works;
  const work = { ...kept.work, laying: { steps: [{ id: 'a', effect: 'ripple' }], seed: '7' } };
  const sent = { ...kept, revision: kept.revision + 1, work, past: [kept.work] };
  expect((await page.ask(`work/${kept.id}`, sent, { method: 'PUT' })).status).toBe(200);
  await page.end();
  const again = await open('open', 'twig.png', '--size', '96x96mm', '--layout', 'half-drop', ...LOADED);
  const [found] = (await again.begin()).works;
  expect(found.work).toEqual({ ...work, size: { width: 96, height: 96 }, layout: 'drop:1/2' });
  expect(found.past.at(-1)).toEqual(work);
});
it('refuses what is not there, before it serves anything', async () => {
  for (const place of ['nothing.png', 'ripple.ts'])
    expect((await tenter(folder, ['open', place, '--no-browser'])).code).toBe(3);
  expect((await tenter(folder, ['open', 'twig.png', '--port', '0', '--no-browser'])).code).toBe(2);
  const taken = opened[0].address.port;
  const { code, err } = await tenter(folder, ['open', 'twig.png', '--port', taken, '--no-browser']);
  expect(code).toBe(2);
  expect(err).toContain('taken');
});
it('follows a plugin that is being written, and tells its author what is wrong', async () => {
  const place = join(folder, 'wave');
  mkdirSync(place);
  const save = (text: string) => writeFileSync(join(place, 'index.ts'), text);
  const WAVE = RIPPLE.replace("'ripple'", "'wave'");
  save(WAVE);
  const page = await open(
    'watch',
    'wave',
    '--open',
    '--tile',
    'twig.png',
    '--size',
    '48x48mm',
    '--trust',
    '--no-browser',
  );
  const begin = await page.begin();
  expect(begin.watched).toBe('wave');
  expect(begin.works[0].work.laying.steps.map(({ effect }) => effect)).toEqual(['wave']);
  const order = await orderOf(page, { id: 'a', effect: 'wave' });
  const before = await lookOf(await page.ask('look', order));
  const failed = await untilNews(
    page,
    (news): news is Extract<News, { kind: 'effect failed' }> => news.kind === 'effect failed',
    async () => save(WAVE.replace('planes:', 'plains:')),
  );
  expect(failed.message).toMatch(/wave|planes|plains/);
  expect((await page.ask('look', order)).status).toBe(200);
  const loaded = await untilNews(
    page,
    (news): news is Extract<News, { kind: 'effect' }> => news.kind === 'effect',
    async () => save(WAVE.replace('default: 0.3', 'default: 0.8')),
  );
  expect(loaded.offered.effect.name).toBe('wave');
  const after = await lookOf(await page.ask('look', order));
  expect(Buffer.from(after.pixels).equals(Buffer.from(before.pixels))).toBe(false);
  expect(readFileSync(join(place, 'index.ts'), 'utf8')).toContain('0.8');
});
