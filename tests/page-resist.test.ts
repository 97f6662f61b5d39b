import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { resistSamples } from '../src/page/resist/index.ts';
import type { Stroke } from '../src/page/words/work.ts';
import { gridOfPixels, parseLayout } from '../src/repeat/index.ts';
import { isThere, openBrowser } from './chromium.ts';
import { root } from './house-map.ts';

let browser: Browser;
let html: string;

beforeAll(async () => {
  if (!isThere) return;
  const made = await build({
    entryPoints: [join(root, 'tests/page-resist/harness.tsx')],
    bundle: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    jsx: 'automatic',
    jsxImportSource: 'preact',
  });
  const style = ['src/collection/page/main.css', 'src/page/view/resist/resist.css'].map((file) =>
    readFileSync(join(root, file), 'utf8'),
  );
  const own = 'canvas{position:fixed;inset:0;width:100vw;height:100vh;touch-action:none}';
  const place =
    '#ticket{position:fixed;right:16px;top:16px;width:330px;background:var(--card);padding:16px;border:1px solid var(--rule)}';
  html = `<!doctype html><html lang="en"><title>Resist</title><style>${style.join('')}${own}${place}</style><canvas tabindex="0"></canvas><div id="ticket"></div><script>${made.outputFiles[0].text.replaceAll('</script', '<\\/script')}</script>`;
  browser = await openBrowser();
});
afterAll(() => browser?.close());

async function onPage(kind: 'resist' | 'mask', trial: (page: Page) => Promise<void>): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 1000, height: 640 }, hasTouch: true });
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  const said: string[] = [];
  page.on('console', (message) => said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  await page.setContent(html);
  await page.evaluate((one) => (window as never as Harness).show[one](), kind);
  await settle(page);
  await trial(page);
  expect(said).toEqual([]);
  await context.close();
}

interface Harness {
  readonly samplesOf: (strokes: Stroke[], layout: string) => number[];
  readonly show: Record<'resist' | 'mask', () => void>;
  readonly resist: { value: { strokes: Stroke[] } };
  readonly mask: { value?: { colours?: string[]; tolerance?: number } };
}

const settle = (page: Page) =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
const strokesOf = (page: Page) => page.evaluate(() => (window as never as Harness).resist.value.strokes);
const setStrokes = (page: Page, strokes: Stroke[]) =>
  page.evaluate((all) => {
    (window as never as Harness).resist.value = { strokes: all };
  }, strokes);

/** How much of the hatching lies in a square of 28 px around a place, mm: the share of pixels that are not the artwork's. */
async function hatched(page: Page, x: number, y: number): Promise<number> {
  await settle(page);
  return page.evaluate(
    ([atX, atY]) => {
      const context = document.querySelector('canvas')!.getContext('2d')!;
      const { data } = context.getImageData((atX + 20) * 4 - 14, (atY + 10) * 4 - 14, 28, 28);
      let off = 0;
      for (let at = 0; at < data.length; at += 4) {
        const isGround = data[at] > 231 && data[at + 1] === 234 && data[at + 2] === 216;
        const isDisc = data[at] === 170 && data[at + 1] === 51 && data[at + 2] === 17;
        if (!isGround && !isDisc) off++;
      }
      return off / 784;
    },
    [x, y],
  );
}
/** Screen px of a place in mm. */
const at = (x: number, y: number) => [(x + 20) * 4, (y + 10) * 4] as const;

async function draw(page: Page, ...places: (readonly [number, number])[]): Promise<void> {
  await page.mouse.move(...at(...places[0]));
  await page.mouse.down();
  for (const place of places.slice(1)) await page.mouse.move(...at(...place), { steps: 6 });
  await page.mouse.up();
}

const SHOTS = process.env.TENTER_SHOTS;
const shot = (page: Page, name: string) =>
  SHOTS ? page.screenshot({ path: join(SHOTS, `${name}.png`) }) : undefined;

describe.runIf(isThere)('the brush on the cloth', () => {
  it('paints with the mouse over the seam of a half-drop, and is undone', () =>
    onPage('resist', async (page) => {
      await draw(page, [85, 12], [108, 12]);
      expect(await hatched(page, 90, 12)).toBeGreaterThan(0.9);
      // What went over the seam at 100 mm lies half a tile higher in the tile, and so on every copy of it.
      expect(await hatched(page, 106, 12)).toBeGreaterThan(0.9);
      expect(await hatched(page, 6, 52)).toBeGreaterThan(0.9);
      expect(await hatched(page, -10, 52)).toBeGreaterThan(0.9);
      expect(await hatched(page, 90, 92)).toBeGreaterThan(0.9);
      expect(await hatched(page, 6, 12)).toBe(0);
      expect(await hatched(page, 50, 40)).toBe(0);
      const strokes = await strokesOf(page);
      expect(strokes).toHaveLength(1);
      expect(strokes[0]).toMatchObject({ width: 12, softness: 0.5 });
      expect(strokes[0].points.filter((_, index) => index % 3 === 2)).toEqual(
        strokes[0].points.filter((_, index) => index % 3 === 2).map(() => 1),
      );
      await page.mouse.move(...at(40, 40));
      await settle(page);
      await shot(page, 'resist-seam');
      await setStrokes(page, []);
      expect(await hatched(page, 90, 12)).toBe(0);
      await setStrokes(page, strokes);
      expect(await hatched(page, -10, 52)).toBeGreaterThan(0.9);
    }));

  it('takes away by the right button and by its words, and says so in the strokes', () =>
    onPage('resist', async (page) => {
      await draw(page, [20, 20], [60, 20]);
      await page.mouse.move(...at(30, 20));
      await page.mouse.down({ button: 'right' });
      await page.mouse.up({ button: 'right' });
      expect(await hatched(page, 30, 20)).toBeLessThan(0.9);
      await page.getByLabel('Edge of the brush').selectOption('0');
      await page.getByLabel('What the brush does').selectOption('takes');
      await page.getByLabel('Width of the brush, mm').fill('20');
      await draw(page, [56, 20], [64, 20]);
      await page.mouse.move(...at(10, 100));
      expect(await hatched(page, 58, 20)).toBe(0);
      expect(await hatched(page, 42, 20)).toBeGreaterThan(0.9);
      expect((await strokesOf(page)).map(({ erases }) => erases ?? false)).toEqual([false, true, true]);
      await page.getByRole('button', { name: 'Hide it' }).click();
      expect(await hatched(page, 42, 20)).toBe(0);
      await page.getByRole('button', { name: 'Show it' }).click();
      await page.getByRole('button', { name: 'Clear' }).click();
      expect(await strokesOf(page)).toEqual([]);
      expect(await hatched(page, 42, 20)).toBe(0);
    }));

  it('feels the pressure of a pen, its other end, and a finger', () =>
    onPage('resist', async (page) => {
      const send = (kind: string, place: readonly [number, number], rest: object) =>
        page.evaluate(
          ([name, [x, y], more]) => {
            const event = new PointerEvent(name as string, {
              ...{ clientX: x, clientY: y, pointerId: 1, bubbles: true },
              ...(more as object),
            });
            const canvas = document.querySelector('canvas')!;
            canvas.setPointerCapture = () => undefined;
            canvas.dispatchEvent(event);
          },
          [kind, [...place], rest] as [string, [number, number], object],
        );
      const stroke = async (from: [number, number], to: [number, number], rest: object) => {
        await send('pointerdown', at(...from), rest);
        await send('pointermove', at(...to), rest);
        await send('pointerup', at(...to), rest);
      };
      await stroke([10, 10], [40, 10], { pointerType: 'pen', pressure: 0.125, buttons: 1 });
      await stroke([10, 70], [40, 70], { pointerType: 'pen', pressure: 0.9, buttons: 1 });
      const [light, heavy] = [await hatched(page, 25, 10), await hatched(page, 25, 70)];
      expect(light).toBeGreaterThan(0.2);
      expect(light).toBeLessThan(heavy - 0.2);
      await stroke([10, 70], [40, 70], { pointerType: 'pen', pressure: 0.9, button: 5, buttons: 32 });
      expect(await hatched(page, 25, 70)).toBeLessThan(heavy);
      await page.touchscreen.tap(...at(60, 10));
      expect(await hatched(page, 60, 10)).toBeGreaterThan(0.9);
      const points = (await strokesOf(page)).map((one) => one.points[2]);
      expect(points).toEqual([0.25, 1, 1, 1]);
    }));

  it('comes to the same bytes in the browser as in Node', () =>
    onPage('resist', async (page) => {
      const strokes: Stroke[] = [0, 0.4, 1].map((softness, index) => ({
        ...{ width: 9 + index * 7, softness, erases: index === 1 },
        points: Array.from({ length: 90 }, (_, at) => [
          80 * Math.sin(at / 7 + index),
          at * 1.7,
          0.5 + 0.4 * Math.sin(at),
        ]).flat(),
      }));
      for (const layout of ['drop:2/5', 'brick:1/3', 'mirror-xy', 'turn']) {
        const here = resistSamples(
          { strokes },
          gridOfPixels({ layout: parseLayout(layout), width: 100, height: 80 }, 150, 120),
        );
        const there = await page.evaluate(
          ([all, name]) => (window as never as Harness).samplesOf(all as Stroke[], name as string),
          [strokes, layout] as const,
        );
        expect(there).toEqual([...here]);
        expect(new Set(there).size).toBeGreaterThan(100);
      }
    }));

  it('is led by keys alone', () =>
    onPage('resist', async (page) => {
      await page.locator('canvas').focus();
      await page.keyboard.press('ArrowLeft');
      await page.keyboard.press('Space');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      for (let step = 0; step < 5; step++) await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      const strokes = await strokesOf(page);
      expect(strokes).toHaveLength(2);
      expect(strokes[0].points).toHaveLength(3);
      expect(strokes[1].points).toHaveLength(18);
      // The window's middle is 105, 70 mm; in the box at home that is half a tile higher.
      expect(strokes[0].points[0]).toBeCloseTo(99, 3);
      expect(await hatched(page, 99, 76)).toBeGreaterThan(0.9);
      await expect.poll(() => page.locator('output').textContent()).toBe('The brush is lifted.');
      await page.keyboard.press('Enter');
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('Escape');
      expect(await strokesOf(page)).toHaveLength(2);
      await shot(page, 'resist-keys');
    }));
});

describe.runIf(isThere)('colours by touching', () => {
  const maskOf = (page: Page) => page.evaluate(() => (window as never as Harness).mask.value);

  it('takes and leaves a colour, and shows where it lies as it grows', () =>
    onPage('mask', async (page) => {
      await page.mouse.click(...at(50, 40));
      expect(await maskOf(page)).toEqual({ colours: ['#aa3311'] });
      expect(await hatched(page, 50, 40)).toBeGreaterThan(0.9);
      expect(await hatched(page, 50, 120)).toBeGreaterThan(0.9);
      expect(await hatched(page, 90, 10)).toBe(0);
      await shot(page, 'mask-disc');
      await page.mouse.click(...at(50, 40));
      expect(await maskOf(page)).toBeUndefined();
      await page.getByRole('button', { name: '#f3ead8' }).click();
      await page.getByLabel('How far off').fill('0');
      await page.getByLabel('Over how much').fill('0');
      expect(await hatched(page, 90, 4)).toBeGreaterThan(0.9);
      expect(await hatched(page, 90, 70)).toBe(0);
      await page.getByLabel('How far off').fill('12');
      expect(await hatched(page, 90, 70)).toBeGreaterThan(0.9);
      expect(await hatched(page, 50, 40)).toBe(0);
      await page.getByLabel('Where it lies').selectOption('spare');
      expect(await hatched(page, 50, 40)).toBeGreaterThan(0.9);
      expect(await hatched(page, 90, 70)).toBe(0);
    }));

  it('takes a colour by keys alone, and none where the cloth was dragged', () =>
    onPage('mask', async (page) => {
      await page.locator('canvas').focus();
      await page.keyboard.press('ArrowUp');
      await page.keyboard.press('Shift+ArrowLeft');
      await page.keyboard.press('Enter');
      expect((await maskOf(page))?.colours).toHaveLength(1);
      await settle(page);
      await shot(page, 'mask-keys');
      await draw(page, [50, 40], [60, 50]);
      expect((await maskOf(page))?.colours).toHaveLength(1);
    }));
});
