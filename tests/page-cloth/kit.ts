import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { expect } from 'vitest';
import { tilePixelFinder } from '../../src/repeat/fold.ts';
import {
  boxCount,
  formatLayout,
  type Grid,
  gridOfPixels,
  parseLayout,
  unfold,
  unfoldedLayout,
} from '../../src/repeat/index.ts';
import type { Made } from './harness.tsx';

/** A secure context, as the page is; nothing is asked of the network. */
const ADDRESS = 'http://localhost/';

/** The page that holds nothing but a cloth, as text. */
export async function makePage(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(new URL('harness.tsx', import.meta.url))],
    bundle: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    outdir: 'nowhere',
    jsx: 'automatic',
    jsxImportSource: 'preact',
  });
  const textOf = (end: string) => outputFiles.find(({ path }) => path.endsWith(end))!.text;
  const style = `${textOf('.css')} body { margin: 0; max-width: none; padding: 0; }`;
  const script = textOf('.js').replaceAll('</script', '<\\/script');
  return `<!doctype html><html lang="en"><title>Cloth</title><style>${style}</style><body><script>${script}</script></body></html>`;
}

/** Opens a cloth, tries something on it, and looks whether it kept quiet. */
export async function onCloth(
  browser: Browser,
  text: string,
  trial: (page: Page) => Promise<void>,
  { hasEdge, ...options }: BrowserContextOptions & { hasEdge?: boolean } = {},
): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 200, height: 150 }, ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  const said: string[] = [];
  page.on('console', (message) => said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  await page.route('**/*', (route) => route.fulfill({ body: text, contentType: 'text/html' }));
  await page.goto(`${ADDRESS}${hasEdge ? '?edge' : ''}`);
  await page.waitForFunction(() => window.cloth.room.value.width > 0);
  await trial(page);
  expect(said).toEqual([]);
  await context.close();
}

/** A tile of noise: no pixel is like another. */
export function noise(width: number, height: number, seed = 1): Uint8Array {
  const pixels = new Uint8Array(width * height * 4);
  let state = seed * 7919;
  for (let i = 0; i < pixels.length; i++) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    pixels[i] = i % 4 === 3 ? 255 : state >>> 24;
  }
  return pixels;
}

/** A tile, its grid, and the period that the server would send of it. */
export interface Trial {
  readonly grid: Grid;
  readonly tile: Uint8Array;
  readonly made: Made;
}

/** @param density px per mm */
export function trialOf(
  text: string,
  tile: Uint8Array,
  width: number,
  height: number,
  density: number,
): Trial {
  const layout = parseLayout(text);
  const grid = gridOfPixels({ layout, width: width / density, height: height / density }, width, height);
  const { across, down } = boxCount(layout);
  const period = unfold(layout, tile, width, height, 4, new Uint8Array(tile.length * across * down));
  const part = { left: 0, top: 0, width: grid.box.width, height: grid.box.height };
  const pixels = Buffer.from(period).toString('base64');
  const made = {
    width: grid.width,
    height: grid.height,
    part,
    layout: formatLayout(unfoldedLayout(layout)),
    pixels,
  };
  return { grid, tile, made };
}

/** What the host's own repeat shows in a window, RGBA. @param left px of the plane. */
export function planeOf({ grid, tile }: Trial, left: number, top: number, width: number, height: number) {
  const find = tilePixelFinder(grid);
  const plane = new Uint8Array(width * height * 4);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const from = find(left + x, top + y) * 4;
      plane.set(tile.subarray(from, from + 4), (y * width + x) * 4);
    }
  }
  return plane;
}

export interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint8Array;
}

/** Shows a period from a place. @param left mm */
export async function show(
  page: Page,
  { made, grid }: Trial,
  view: { left: number; top: number; scale: number },
): Promise<void> {
  await page.evaluate(
    async ([look, repeat, from]) => {
      window.cloth.repeat.value = repeat;
      window.cloth.period.value = await window.shown(look);
      window.cloth.view.value = from;
    },
    [
      made,
      {
        width: grid.repeat.width,
        height: grid.repeat.height,
        layout: formatLayout(grid.repeat.layout),
      },
      view,
    ] as const,
  );
}

/** One pixel. */
export function pixelAt({ width, pixels }: Drawn, x: number, y: number): number[] {
  return [...pixels.subarray((y * width + x) * 4, (y * width + x + 1) * 4)];
}

export async function drawnOn(page: Page): Promise<Drawn> {
  const { width, height, pixels } = await page.evaluate(() => window.drawn());
  return { width, height, pixels: new Uint8Array(Buffer.from(pixels, 'base64')) };
}

/** How many pixels of two pictures differ, and where the first does; within a part of their width. */
export function differing(
  { width, height, pixels }: Drawn,
  wanted: Uint8Array,
  from = 0,
  to = width,
): { count: number; first?: [number, number] } {
  let count = 0;
  let first: [number, number] | undefined;
  for (let y = 0; y < height; y++) {
    for (let x = from; x < to; x++) {
      const at = (y * width + x) * 4;
      if ([0, 1, 2, 3].every((c) => pixels[at + c] === wanted[at + c])) continue;
      count++;
      first ??= [x, y];
    }
  }
  return { count, first };
}
