import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { randomStream } from '../src/field/index.ts';
import { openPage } from './page-kit.ts';
import {
  another,
  BIRD,
  clothSeen,
  forgetSession,
  freshFolder,
  freshWalk,
  GROUND,
  hear,
  isThere,
  lay,
  openBird,
  openBrowser,
  sameAs,
  savedIn,
  settled,
  shot,
  sweep,
  visit,
  walk,
  write,
  writeUnclosed,
} from './page-walk-kit.ts';

const there = {} as { browser: Browser; folder: string };

beforeAll(async () => {
  if (!isThere) return;
  there.folder = await freshFolder();
  there.browser = await openBrowser();
});
afterAll(async () => {
  await there.browser?.close();
  if (there.folder) sweep(there.folder);
});

/** ms: a picture is worked on, which takes its time where other work is done beside. */
const CLOSING = { timeout: 100_000 };

const fresh = (way: (page: Page) => Promise<void>, expected?: RegExp) =>
  freshWalk(() => there, way, { expected });

async function fileOf(path: string) {
  return { name: path.split('/').at(-1)!, mimeType: 'image/png', buffer: readFileSync(path) };
}

/** Dots strewn over 60 x 60 mm, some of them cut off by its edges. */
async function flecks(): Promise<Buffer> {
  const random = randomStream('flecks', 'places');
  const dots = Array.from({ length: 90 }, () => {
    const [x, y, radius] = [random.between(0, 240), random.between(0, 240), random.between(3, 9)];
    return `<circle cx="${x}" cy="${y}" r="${radius}" fill="${BIRD}"/>`;
  });
  const drawn = `<svg xmlns="http://www.w3.org/2000/svg" width="240" height="240">
    <rect width="240" height="240" fill="${GROUND}"/>${dots.join('')}</svg>`;
  return sharp(Buffer.from(drawn)).withMetadata({ density: 101.6 }).png().toBuffer();
}

async function save(page: Page, what: string, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Save…' }).click();
  const dialog = page.getByRole('dialog', { name: 'Save' });
  await dialog.getByRole('combobox', { name: 'what' }).selectOption({ label: what });
  await dialog.getByRole('textbox', { name: /^Name it/ }).fill(name);
  await shot(page, `save-${what.replaceAll(' ', '-').slice(0, 20)}`);
  await dialog.getByRole('button', { name: 'Save', exact: true }).click();
}

describe.runIf(isThere)('opening a picture', () => {
  it(
    'by choosing a file: what does not close is said at once',
    fresh(async (page) => {
      const bare = await clothSeen(page);
      const path = join(there.folder, 'shade.png');
      await writeUnclosed(path);
      await page.getByRole('button', { name: 'open a picture' }).click();
      const dialog = page.getByRole('dialog', { name: 'Open a picture' });
      await dialog.getByLabel(/^A tile that stands in repeat/).setInputFiles(await fileOf(path));
      await dialog.getByText('It does not close so.').waitFor();
      await dialog.getByRole('radio', { name: 'a repeat mirrored across' }).check();
      await dialog.getByText('It closes so.').waitFor(CLOSING);
      await shot(page, 'open-picture');
      await dialog.getByRole('button', { name: 'Put it on the cloth' }).click();
      const put = await another(page, bare);
      expect(put.colours).not.toContain(GROUND);
      await page.getByRole('heading', { name: 'shade' }).waitFor();
      await page.getByRole('combobox', { name: 'layout' }).selectOption('straight');
      await page.getByText('The tile itself does not close so.').waitFor();
      await page.getByRole('application').focus();
      await page.keyboard.press('Control+z');
      await page.keyboard.press('Control+z');
      await sameAs(page, bare);
    }),
  );

  it(
    'one that does not close is made to, in the question and on the ticket',
    fresh(async (page) => {
      const bare = await clothSeen(page);
      await page.getByRole('button', { name: 'open a picture' }).click();
      const dialog = page.getByRole('dialog', { name: 'Open a picture' });
      await dialog
        .getByLabel(/^A tile that stands in repeat/)
        .setInputFiles({ name: 'flecks.png', mimeType: 'image/png', buffer: await flecks() });
      await dialog.getByText('It does not close so.').waitFor();
      await dialog.getByRole('button', { name: 'make it close' }).click();
      await dialog.getByText('It closes so.').waitFor();
      await dialog.getByText(/^Made to close: [\d.]+ % of it changed/).waitFor();
      await dialog.getByRole('button', { name: 'Put it on the cloth' }).click();
      await another(page, bare);
      await page.getByRole('heading', { name: 'flecks, made to close' }).waitFor();
      await page.getByText('It closes.').waitFor();
      await page.getByRole('combobox', { name: 'layout' }).selectOption('drop:1/2');
      await page.getByText('The tile itself does not close so.').waitFor();
      await shot(page, 'make-it-close');
      await page.getByRole('button', { name: 'make it close' }).click();
      await page.getByText('It closes.').waitFor(CLOSING);
      await page.getByRole('heading', { name: 'flecks, made to close', exact: true }).waitFor();
    }),
  );

  it(
    'by dropping one: 1 x 1 px, 16 bits, and a file that is no picture',
    fresh(async (page) => {
      let seen = await clothSeen(page);
      const dot = await sharp({ create: { width: 1, height: 1, channels: 3, background: '#3366cc' } })
        .png()
        .toBuffer();
      await drop(page, 'dot.png', dot);
      await page.getByRole('button', { name: 'Put it on the cloth' }).click();
      seen = await another(page, seen);
      expect(seen.colours).toEqual(['#3366cc']);
      const samples = new Uint16Array(40 * 40 * 3).fill(0x9999);
      const deep = await sharp(samples, { raw: { width: 40, height: 40, channels: 3 } })
        .toColourspace('rgb16')
        .tiff({ compression: 'none' })
        .toBuffer();
      await drop(page, 'deep.tif', deep);
      await page.getByRole('button', { name: 'Put it on the cloth' }).click();
      seen = await another(page, seen);
      expect(seen.colours).toEqual(['#999999']);
      await drop(page, 'words.png', Buffer.from('no picture at all'));
      const dialog = page.getByRole('dialog', { name: 'Open a picture' });
      await dialog.getByRole('alert').filter({ hasText: 'words.png' }).waitFor();
      await shot(page, 'no-picture');
      await page.keyboard.press('Escape');
      await sameAs(page, seen);
    }, /400 \(Bad Request\)|422/),
  );
});

/** Drops a file onto the cloth. */
async function drop(page: Page, name: string, bytes: Buffer): Promise<void> {
  await page.getByRole('main').evaluate(
    (main, [called, text]) => {
      const file = new File([Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))], called);
      const data = new DataTransfer();
      data.items.add(file);
      main.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
    },
    [name, bytes.toString('base64')] as const,
  );
  await page.getByRole('dialog', { name: 'Open a picture' }).waitFor();
}

describe.runIf(isThere)('saving', () => {
  it(
    'a tile, the texture alone, the recipe, trials; and overwrites nothing unasked',
    fresh(async (page) => {
      await lay(page, 'stripes');
      await write(page, 'cover', '100 %');
      await page.getByRole('button', { name: /^Pin/ }).click();
      const savings = page.getByRole('status', { name: 'Savings' });
      await save(page, 'the finished tile', 'laid');
      await savings.getByText('Saved laid.png.').waitFor();
      const laid = readFileSync(join(there.folder, 'laid.png'));
      const { data, info } = await sharp(laid).removeAlpha().raw().toBuffer({ resolveWithObject: true });
      // 60 mm at the 300 dpi that is offered for print.
      expect([info.width, info.height]).toEqual([709, 709]);
      const colours = new Set<string>();
      for (let at = 0; at < data.length; at += 3) colours.add(data.subarray(at, at + 3).toString('hex'));
      expect(colours).toContain('204080');
      expect(colours).toContain(GROUND.slice(1));
      expect(colours).toContain(BIRD.slice(1));
      await write(page, 'cover', '0 %');
      await save(page, 'the finished tile', 'laid');
      await savings.getByText('laid.png is there already; nothing was written.').waitFor();
      expect(readFileSync(join(there.folder, 'laid.png')).equals(laid)).toBe(true);
      await save(page, 'the recipe', 'recipe');
      await savings.getByText('Saved recipe.json.').waitFor();
      const recipe = JSON.parse(readFileSync(join(there.folder, 'recipe.json'), 'utf8'));
      expect(recipe.steps[0]).toMatchObject({ effect: 'stripes', parameters: { cover: 0 } });
      await save(page, 'the texture alone, to be laid by hand', 'alone');
      await savings.getByText(/^Saved alone/).waitFor();
      await save(page, 'the pinned trials, into a collection', 'chosen');
      await savings.getByText('Saved chosen.json.').waitFor();
      expect(JSON.parse(readFileSync(join(there.folder, 'chosen.json'), 'utf8')).recipes).toHaveLength(1);
      expect(savedIn(there.folder).filter((name) => /^alone/.test(name)).length).toBeGreaterThan(0);
      await shot(page, 'saved');
      await page.getByRole('button', { name: 'good: put laid.png out of sight' }).first().click();
    }),
  );

  it(
    'is stopped, and then nothing is written',
    fresh(async (page) => {
      await lay(page, 'linen weave');
      await write(page, 'width of the tile', '900 mm');
      await settled(page);
      await save(page, 'the finished tile', 'large');
      await page.getByRole('button', { name: 'stop', exact: true }).click();
      await page.getByText('large.png was stopped; nothing was written.').waitFor();
      expect(savedIn(there.folder).filter((name) => /large/.test(name))).toEqual([]);
    }),
  );
});

describe.runIf(isThere)('nothing is lost', () => {
  it(
    'by a reload, and none of the undoing',
    fresh(async (page) => {
      const bare = await clothSeen(page);
      await lay(page, 'stripes');
      await write(page, 'cover', '90 %');
      const laid = await clothSeen(page);
      await page.getByRole('button', { name: /^Pin/ }).click();
      await page.reload();
      await page.getByRole('application').waitFor();
      await sameAs(page, laid);
      await page.getByRole('button', { name: /^Lay stripes, throw 1$/ }).waitFor();
      await page.getByRole('application').focus();
      for (let step = 0; step < 3; step++) await page.keyboard.press('Control+z');
      await sameAs(page, bare);
    }),
  );

  it.runIf(process.platform !== 'win32')('where the server is killed and started again', async () => {
    forgetSession(there.folder);
    const port = String(20_000 + (process.pid % 20_000));
    const first = await openBird(there.folder, '--port', port);
    await walk(
      there.browser,
      first,
      async (page) => {
        await lay(page, 'stripes');
        await write(page, 'cover', '70 %');
        const laid = await clothSeen(page);
        const kept = page.waitForResponse(
          (answer) => answer.url().includes('api/work') && answer.request().method() === 'PUT',
        );
        await page.getByRole('button', { name: /^Pin/ }).click();
        await kept;
        first.process.kill('SIGKILL');
        await page.getByText('The program behind this page has stopped.', { exact: false }).waitFor();
        await shot(page, 'killed');
        const second = await openBird(there.folder, '--port', port);
        try {
          await page.goto('about:blank');
          await visit(page, second);
          await sameAs(page, laid);
          await page.getByRole('button', { name: /^Lay stripes, throw 1$/ }).waitFor();
        } finally {
          await second.end();
        }
      },
      { expected: /ERR_CONNECTION_REFUSED|ERR_INCOMPLETE_CHUNKED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE/ },
    );
  });

  it('where two tabs work on one design', async () => {
    forgetSession(there.folder);
    const opened = await openBird(there.folder);
    const context = await there.browser.newContext({ viewport: { width: 1280, height: 800 } });
    try {
      const [one, other] = [await context.newPage(), await context.newPage()];
      const said = [...hear(one), ...hear(other)];
      await visit(one, opened);
      await visit(other, opened);
      await lay(one, 'stripes');
      const kept = await clothSeen(one);
      await lay(other, 'paper tooth');
      await other.getByText('This design is open in another tab too.', { exact: false }).waitFor();
      const second = await clothSeen(other);
      await shot(other, 'two-tabs');
      expect(second.mark).not.toBe(kept.mark);
      await sameAs(one, kept);
      await expect
        .poll(async () => (await opened.begin()).works.map(({ work }) => work.laying.steps[0]?.effect).sort())
        .toEqual(['paper-tooth', 'stripes']);
      expect(said).toEqual([]);
    } finally {
      await context.close();
      await opened.end();
    }
  });

  it(
    'where an effect throws or hangs: the page names it and goes on',
    freshWalk(
      () => there,
      async (page) => {
        await lay(page, 'stubborn');
        const well = await clothSeen(page);
        await page.getByRole('combobox', { name: 'does' }).selectOption('throw');
        await page.getByText(/stubborn.*The vat ran dry\./s).waitFor();
        await shot(page, 'throws');
        await page.getByRole('combobox', { name: 'does' }).selectOption('hang');
        await page.getByText(/stubborn.*3 s/s).waitFor();
        await page.getByRole('combobox', { name: 'does' }).selectOption('well');
        await sameAs(page, well);
        await expect.poll(() => page.getByRole('alert').textContent()).toBe('');
        await lay(page, 'stripes');
        await another(page, well);
      },
      { expected: /status of (4|5)\d\d/ },
      ...['--time-limit', '3'],
    ),
  );

  it('where the artwork changes on disk: the cloth follows', async () => {
    forgetSession(there.folder);
    const path = join(there.folder, 'turned.png');
    const plain = (background: string) =>
      sharp({ create: { width: 40, height: 40, channels: 3, background } })
        .png()
        .toBuffer();
    writeFileSync(path, await plain('#aa5500'));
    const opened = await openPage(there.folder, ['open', 'turned.png', '--no-browser']);
    try {
      await walk(there.browser, opened, async (page) => {
        expect((await clothSeen(page)).colours).toEqual(['#aa5500']);
        writeFileSync(path, await plain('#0055aa'));
        await expect
          .poll(async () => (await clothSeen(page)).colours, { timeout: 15_000 })
          .toEqual(['#0055aa']);
      });
    } finally {
      await opened.end();
    }
  });
});
