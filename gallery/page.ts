import { type ChildProcess, spawn } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { chromium } from 'playwright-core';
import sharp from 'sharp';

const CHROMIUM = '/usr/bin/chromium';

/** A picture of the live page at work, where there is a browser: salt and linen on a design, with two trials pinned. */
export async function drawPage(tile: string, out: string): Promise<boolean> {
  if (!existsSync(CHROMIUM)) return false;
  // What is under work is kept beside the artwork, which is not the gallery's.
  const folder = mkdtempSync(join(tmpdir(), 'tenter-gallery-'));
  const copy = join(folder, basename(tile));
  copyFileSync(tile, copy);
  const server = serve(copy, folder);
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox'] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(await addressOf(server));
    const lay = (name: string) => page.getByRole('button', { name, exact: true }).click();
    await lay('linen weave');
    await page.getByRole('button', { name: 'Then lay something more' }).click();
    await lay('salt bloom');
    await page.getByRole('button', { name: /^hang six throws/ }).click();
    await page.locator('.hung .there').nth(5).waitFor();
    await page.getByRole('button', { name: 'Lay throw 2', exact: true }).click();
    await page.waitForTimeout(SETTLED_MS);
    await sharp(await page.screenshot())
      .jpeg({ quality: 88 })
      .toFile(out);
  } finally {
    await browser.close();
    server.kill('SIGINT');
    rmSync(folder, { recursive: true, force: true });
  }
  return true;
}

/** A finished picture of the whole cloth has come by then. */
const SETTLED_MS = 8000;

function serve(tile: string, folder: string): ChildProcess {
  const command = [resolve('dist/cli/main.js'), 'open', tile, '--layout', 'drop:1/2', '--no-browser'];
  return spawn(process.execPath, command, { cwd: folder, stdio: ['ignore', 'pipe', 'inherit'] });
}

function addressOf(server: ChildProcess): Promise<string> {
  return new Promise((found, lost) => {
    let said = '';
    server.stdout!.on('data', (data) => {
      said += data;
      const address = /http:\S+/.exec(said)?.[0];
      if (address) found(address);
    });
    server.once('exit', () => lost(new Error(`The page did not open: ${said}`)));
  });
}
