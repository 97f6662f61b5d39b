import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  clothSeen,
  forgetSession,
  freshFolder,
  isThere,
  lay,
  openBird,
  openBrowser,
  sweep,
  walk,
} from './page-walk-kit.ts';
import { writeDyer, writeSwatch } from './picture-kit.ts';

let folder: string;
let browser: Browser;

beforeAll(async () => {
  if (!isThere) return;
  folder = await freshFolder();
  await writeDyer(folder);
  await writeSwatch(join(folder, 'blue.png'), '#0000ff');
  await writeSwatch(join(folder, 'bare.png'), '#00ff00', null);
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  if (folder) sweep(folder);
});

describe.runIf(isThere)('a picture on the ticket', () => {
  it('is chosen by its file, and given a size where the file says none', async () => {
    forgetSession(folder);
    const opened = await openBird(folder, '--plugins', 'dyer');
    const quiet = { expected: /api\/look/ };
    try {
      const way = async (page: Page) => {
        const colour = async () => (await clothSeen(page)).colours[0];
        await lay(page, 'dyer');
        expect(await colour()).toBe('#ff0000');
        const choice = page.getByLabel('cloth', { exact: true });
        const choose = async (file: string) => {
          await choice.selectOption({ label: 'another picture…' });
          await page.getByLabel('cloth: a picture of yours').setInputFiles(join(folder, file));
        };
        await choose('blue.png');
        await expect.poll(colour, { timeout: 15_000 }).toBe('#0000ff');
        expect(await choice.locator('option:checked').textContent()).toBe('blue.png');
        await choose('bare.png');
        const told = page.getByText(/size in mm is known/).first();
        await told.waitFor();
        await page.getByLabel(/^cloth: the size of the whole picture/).fill('40x20mm');
        await expect.poll(colour, { timeout: 15_000 }).toBe('#00ff00');
        await expect.poll(() => page.getByText(/size in mm is known/).count()).toBe(0);
        await choice.selectOption({ label: 'own.png' });
        await expect.poll(colour, { timeout: 15_000 }).toBe('#ff0000');
      };
      await walk(browser, opened, way, quiet);
    } finally {
      await opened.end();
    }
  });
});
