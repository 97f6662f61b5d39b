import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import sharp from 'sharp';
import { expect } from 'vitest';
import { API_VERSION } from '../src/effect/index.ts';
import { isThere, openBrowser } from './chromium.ts';
import { type OpenedPage, openPage } from './page-kit.ts';

if (!isThere) console.log('There is no chromium here: the page is not walked.');

/** Pictures of what was walked go there, to be looked at. */
const SHOTS = process.env.TENTER_SHOTS;

export { isThere, openBrowser };

/** The ground of the tile, and what stands on it. */
export const GROUND = '#f0e8d8';
export const BIRD = '#b03020';

/** Stripes of one ink. All its values show in the colours of the cloth or in how many stripes there are. */
const STRIPES = `
import { choice, colour, defineEffect, numbers, numeric, parseHex, text, toggle } from 'tenter';
export default defineEffect({
  apiVersion: ${API_VERSION}, name: 'stripes', version: '1.0.0', summary: 'Stripes of one ink.',
  parameters: {
    cover: numeric({ unit: 'ratio', min: 0, max: 1, default: 0.5, help: 'How much ink.' }),
    pitch: numeric({ unit: 'mm', min: 5, max: 30, default: 15, help: 'From stripe to stripe.' }),
    way: choice({ options: ['upright', 'level'], default: 'upright', help: 'How they run.' }),
    ink: colour({ default: '#204080', help: 'Colour of the ink.' }),
    dry: toggle({ default: false, help: 'Half as much ink.' }),
    shares: numbers({ unit: 'ratio', min: 0.1, max: 0.9, least: 1, most: 3, default: [0.5], help: 'How broad, in turn.' }),
    letters: text({ pattern: '[A-D]{1,4}', longest: 4, say: 'one to four of the letters A to D', default: 'A', help: 'A: as it is. B: the ink turned round.' }),
  },
  planes: ['tint'],
  prepare({ box, parameters, random }) {
    const side = parameters.way === 'upright' ? box.width : box.height;
    const count = Math.max(1, Math.round(side / parameters.pitch));
    const [r, g, b] = parseHex(parameters.ink);
    const ink = parameters.letters.startsWith('B') ? [1 - r, 1 - g, 1 - b] : [r, g, b];
    return { ...parameters, ink, perMm: count / side, start: random('start').next(), dry: parameters.dry ? 0.5 : 1 };
  },
  paint(model, band, layer) {
    for (let row = 0, k = 0; row < band.height; row++) for (let column = 0; column < band.width; column++, k += 4) {
      const at = model.way === 'upright' ? (band.x + column + 0.5) * band.mmPerPixelX : (band.y + row + 0.5) * band.mmPerPixelY;
      const turn = at * model.perMm + model.start;
      const place = ((turn % 1) + 1) % 1;
      const share = model.shares[0] + (model.shares.length - 1) * 0.1;
      layer.tint.set([...model.ink, place < share ? model.cover * model.dry : 0], k);
    }
  },
});`;

/** An effect that goes wrong as its value says. */
const STUBBORN = `
import { choice, defineEffect } from 'tenter';
export default defineEffect({
  apiVersion: ${API_VERSION}, name: 'stubborn', version: '1.0.0', summary: 'Goes wrong on asking.',
  parameters: { does: choice({ options: ['well', 'hang', 'throw'], default: 'well', help: 'What it does.' }) },
  planes: ['shade'],
  prepare({ parameters }) {
    if (parameters.does === 'hang') for (;;);
    if (parameters.does === 'throw') throw new Error('The vat ran dry.');
    return {};
  },
  paint(model, band, layer) { layer.shade.fill(0.5); },
});`;

/** A tile of 60 mm at 2 px to the mm that closes straight and as a half-drop: a bird on a ground. */
export async function writeBird(path: string): Promise<void> {
  const drawn = `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="120" shape-rendering="crispEdges">
    <rect width="120" height="120" fill="${GROUND}"/><rect x="36" y="36" width="48" height="48" fill="${BIRD}"/></svg>`;
  await sharp(Buffer.from(drawn)).withMetadata({ density: 50.8 }).png().toFile(path);
}

/** A tile that closes over no layout: dark at one side, light at the other. */
export async function writeUnclosed(path: string): Promise<void> {
  const samples = Buffer.alloc(80 * 80 * 3);
  for (let k = 0; k < samples.length; k++)
    samples[k] = 128 - 90 * Math.cos((Math.PI * ((Math.floor(k / 3) % 80) + 0.5)) / 80);
  await sharp(samples, { raw: { width: 80, height: 80, channels: 3 } })
    .withMetadata({ density: 50.8 })
    .png()
    .toFile(path);
}

/** A folder with a tile and effects of its own. */
export async function freshFolder(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'tenter-walk-'));
  writeFileSync(join(folder, 'stripes.ts'), STRIPES);
  writeFileSync(join(folder, 'stubborn.ts'), STUBBORN);
  await writeBird(join(folder, 'bird.png'));
  return folder;
}

export const sweep = (folder: string): void => rmSync(folder, { recursive: true, force: true });

/** What was under work there is not gone on with. */
export const forgetSession = (folder: string): void => sweep(join(folder, '.tenter'));

const WORDS = ['--plugins', 'stripes.ts', '--plugins', 'stubborn.ts', '--trust', '--no-browser'];

/** Opens the bird in its folder. @param more Words of the command. */
export const openBird = (folder: string, ...more: string[]): Promise<OpenedPage> =>
  openPage(folder, ['open', 'bird.png', ...WORDS, ...more]);

export interface Walk extends BrowserContextOptions {
  /** What may be said to the console. */
  readonly expected?: RegExp;
  /** Before the page is opened. */
  readonly prepare?: (page: Page) => Promise<void>;
}

/** Opens the page as its address says, walks it, and looks whether it kept quiet. */
export async function walk(
  browser: Browser,
  opened: OpenedPage,
  way: (page: Page) => Promise<void>,
  { expected, prepare, ...options }: Walk = {},
): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
  const page = await context.newPage();
  const said = hear(page);
  try {
    await prepare?.(page);
    await visit(page, opened);
    await way(page);
    expect(said.filter((words) => !expected?.test(words))).toEqual([]);
  } finally {
    await context.close();
  }
}

/** All that a page says to its console, to be looked at in the end. */
export function hear(page: Page): string[] {
  const said: string[] = [];
  page.on('console', (message) => said.push(`${message.text()} ${message.location().url}`));
  page.on('pageerror', (error) => said.push(error.message));
  page.setDefaultTimeout(40_000);
  return said;
}

export async function visit(page: Page, { address }: OpenedPage): Promise<void> {
  await page.addInitScript(countLooks);
  await page.goto(address.href);
  await page.getByRole('application').waitFor();
  await settled(page);
}

interface Counted {
  looksUnderWay: number;
}

/** Runs in the page before its own code: how many looks are under way. */
function countLooks(): void {
  const counted = window as never as Counted;
  const ask = window.fetch;
  counted.looksUnderWay = 0;
  window.fetch = async (address, init) => {
    if (!String(address).endsWith('api/look')) return ask(address, init);
    counted.looksUnderWay++;
    try {
      const answer = await ask(address, init);
      const body = await answer.arrayBuffer();
      return new Response(body, { status: answer.status, headers: answer.headers });
    } finally {
      // The page has it before it counts as come.
      setTimeout(() => counted.looksUnderWay--, 0);
    }
  };
}

/** Waits until the cloth shows what is laid, and nothing moves. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(
    () =>
      new Promise((done) => {
        let calm = 0;
        const look = () => {
          calm = (window as never as Counted).looksUnderWay === 0 ? calm + 1 : 0;
          if (calm > 5) done(true);
          else requestAnimationFrame(look);
        };
        look();
      }),
    undefined,
    { timeout: 60_000 },
  );
}

/** What the cloth is drawn with: its colours, the most frequent first, and a number that tells one picture from another. */
export interface ClothSeen {
  readonly colours: readonly string[];
  readonly mark: number;
  /** Mean of R, G and B, 0..255. */
  readonly light: number;
}

export async function clothSeen(page: Page): Promise<ClothSeen> {
  await settled(page);
  return page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('canvas.cloth-window')!;
    const copy = Object.assign(document.createElement('canvas'), {
      width: canvas.width,
      height: canvas.height,
    });
    const context = copy.getContext('2d', { willReadFrequently: true })!;
    context.drawImage(canvas, 0, 0);
    const { data } = context.getImageData(0, 0, copy.width, copy.height);
    const counts = new Map<number, number>();
    let mark = 0;
    let sum = 0;
    for (let at = 0; at < data.length; at += 4) {
      const pixel = (data[at] << 16) | (data[at + 1] << 8) | data[at + 2];
      counts.set(pixel, (counts.get(pixel) ?? 0) + 1);
      mark = (Math.imul(mark, 31) + pixel) | 0;
      sum += data[at] + data[at + 1] + data[at + 2];
    }
    const most = [...counts].sort(([, a], [, b]) => b - a).slice(0, 8);
    return {
      colours: most.map(([pixel]) => `#${pixel.toString(16).padStart(6, '0')}`),
      mark,
      light: sum / ((data.length / 4) * 3),
    };
  });
}

/** Waits until the cloth is another than it was. @returns What it is then. */
export async function another(page: Page, before: ClothSeen): Promise<ClothSeen> {
  await expect.poll(async () => (await clothSeen(page)).mark, { timeout: 15_000 }).not.toBe(before.mark);
  // A sketch may come before it.
  await settled(page);
  return clothSeen(page);
}

/** Waits until the cloth is as it was. */
export const sameAs = (page: Page, before: ClothSeen) =>
  expect.poll(async () => (await clothSeen(page)).mark, { timeout: 15_000 }).toBe(before.mark);

/** Lays an effect from the swatches. */
export async function lay(page: Page, effect: string): Promise<void> {
  const open = page.getByRole('button', { name: /^(Lay a texture|Then lay something more)$/ });
  if ((await open.getAttribute('aria-expanded')) !== 'true') await open.click();
  await page.getByRole('button', { name: effect, exact: true }).click();
  await page
    .getByRole('heading', { name: new RegExp(`${effect}$`) })
    .last()
    .waitFor();
  await settled(page);
}

/** Writes a value into a number of the ticket. */
export async function write(page: Page, name: string, words: string): Promise<void> {
  await page.getByRole('spinbutton', { name, exact: true }).click();
  const field = page.getByRole('textbox', { name: new RegExp(`^${name}, from`) });
  await field.fill(words);
  await field.press('Enter');
}

/** What of a folder was saved there, the page's own session left out. */
export const savedIn = (folder: string): string[] =>
  readdirSync(folder)
    .filter((name) => !/^(\.tenter|stripes\.ts|stubborn\.ts|bird\.png)$/.test(name))
    .sort();

/** Walks a page of its own, as it is when it is first opened on the bird. */
export const freshWalk =
  (
    of: () => { readonly browser: Browser; readonly folder: string },
    way: (page: Page, opened: OpenedPage) => Promise<void>,
    options: Walk = {},
    ...more: string[]
  ) =>
  async () => {
    const { browser, folder } = of();
    forgetSession(folder);
    const opened = await openBird(folder, ...more);
    try {
      await walk(browser, opened, (page) => way(page, opened), options);
    } finally {
      await opened.end();
    }
  };

/** Two colours mixed in encoded sRGB, as ink of so much cover lies on the ground. */
export function mixed(ground: string, ink: string, share: number): string {
  const parts = (hex: string) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
  const [under, over] = [parts(ground), parts(ink)];
  const bytes = under.map((byte, at) => Math.round(byte + (over[at] - byte) * share));
  return `#${bytes.map((byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}

/** The colour of the cloth at a place of the window, CSS px. */
export async function colourAt(page: Page, x: number, y: number): Promise<string> {
  await settled(page);
  return page.evaluate(
    ([left, top]) => {
      const canvas = document.querySelector<HTMLCanvasElement>('canvas.cloth-window')!;
      const ratio = canvas.width / canvas.clientWidth;
      const copy = Object.assign(document.createElement('canvas'), { width: 1, height: 1 });
      const context = copy.getContext('2d')!;
      context.drawImage(canvas, -Math.floor(left * ratio), -Math.floor(top * ratio));
      const [r, g, b] = context.getImageData(0, 0, 1, 1).data;
      return `#${[r, g, b].map((byte) => byte.toString(16).padStart(2, '0')).join('')}`;
    },
    [x, y],
  );
}

/** Keeps a picture of the page to look at, where one is wanted. */
export async function shot(page: Page, name: string): Promise<void> {
  if (SHOTS) await page.screenshot({ path: join(SHOTS, `${name}.png`) });
}
