import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isThere, openBrowser } from './chromium.ts';
import { picturesIn, tenter } from './collection-kit.ts';
import { makeRun, WILD_NAME } from './collection-sheet-kit.ts';

if (!isThere) console.log('There is no chromium here: the page is not tried.');

let folder: string;
let address: string;
let browser: Browser;

beforeAll(async () => {
  if (!isThere) return;
  folder = mkdtempSync(join(tmpdir(), 'tenter-page-'));
  await makeRun(folder);
  const flags = ['--plugins', 'ripple.ts', '--trust', '--no-sheets'];
  const ended = await tenter(folder, ['collect', 'sheet', 'spring.json', ...flags]);
  expect(ended.code, ended.err).toBe(6);
  address = pathToFileURL(join(folder, 'made/sheets/swatches.html')).href;
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

/** Opens the page, tries something on it, and looks whether it kept quiet and to itself. */
async function onPage(
  trial: (page: Page) => Promise<void>,
  { prepare, ...options }: BrowserContextOptions & { prepare?: (page: Page) => Promise<void> } = {},
): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  const said: string[] = [];
  page.on('console', (message) => said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  page.on('request', (request) => {
    if (!/^(blob|data):/.test(request.url()) && request.url() !== address) said.push(request.url());
  });
  await prepare?.(page);
  await page.goto(address);
  await page.locator('.card').first().waitFor();
  await trial(page);
  expect(said).toEqual([]);
  await context.close();
}

/** Middles of the dark lines along the middle row of a canvas, in CSS px. */
function linesOf(page: Page, selector: string, at = 0.12): Promise<number[]> {
  return page.locator(selector).evaluate((found, place) => {
    const canvas = found as HTMLCanvasElement;
    const ratio = canvas.width / canvas.clientWidth;
    const row = Math.round(canvas.height * place);
    const copy = Object.assign(document.createElement('canvas'), { width: canvas.width, height: 1 });
    const context = copy.getContext('2d', { willReadFrequently: true })!;
    context.drawImage(canvas, 0, -row);
    const { data } = context.getImageData(0, 0, canvas.width, 1);
    const lines: number[] = [];
    for (let x = 0, weight = 0, sum = 0; x <= canvas.width; x++) {
      const dark = x < canvas.width ? 255 - data[x * 4] : 0;
      if (dark > 40) {
        weight += dark;
        sum += dark * (x + 0.5);
      } else if (weight > 0) {
        lines.push(sum / weight / ratio);
        weight = sum = 0;
      }
    }
    return lines;
  }, at);
}

const meanGap = (lines: readonly number[]) => (lines.at(-2)! - lines[1]) / (lines.length - 3);

/** A row that lies between two lines along it shows the lines across. */
async function gapOf(page: Page, selector: string): Promise<number> {
  for (let at = 0.1; at < 0.9; at += 0.017) {
    const lines = await linesOf(page, selector, at);
    if (lines.length > 4) return meanGap(lines);
  }
  return Number.NaN;
}

const isPainted = (page: Page, selector: string) =>
  page.waitForFunction((one) => {
    const canvas = document.querySelector(one) as HTMLCanvasElement | null;
    if (!canvas || canvas.width === 0) return false;
    const context = document.createElement('canvas').getContext('2d', { willReadFrequently: true })!;
    context.drawImage(canvas, -9, -9);
    return context.getImageData(0, 0, 1, 1).data[3] === 255;
  }, selector);

/** Words in sight that are too small or too faint, with what they are. */
function hardToRead(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const numbers = (colour: string) => colour.match(/[\d.]+/g)!.map(Number);
    const light = (colour: number[]) => {
      const [r, g, b] = colour.map((byte) =>
        byte / 255 <= 0.04045 ? byte / 255 / 12.92 : ((byte / 255 + 0.055) / 1.055) ** 2.4,
      );
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const groundOf = (one: Element | null): number[] => {
      if (!one) return [255, 255, 255];
      const ground = numbers(getComputedStyle(one).backgroundColor);
      return ground[3] === 0 ? groundOf(one.parentElement) : ground.slice(0, 3);
    };
    const found: string[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const words = walker.currentNode.textContent!.trim();
      const parent = walker.currentNode.parentElement!;
      if (words === '' || !parent.checkVisibility()) continue;
      const { color, fontSize, opacity } = getComputedStyle(parent);
      const [more, less] = [light(numbers(color).slice(0, 3)), light(groundOf(parent))].sort((a, b) => b - a);
      const ratio = (more + 0.05) / (less + 0.05);
      if (Number.parseFloat(fontSize) < 13 || ratio < 4.5 || Number(opacity) < 1)
        found.push(`${words}: ${fontSize}, ${ratio.toFixed(2)}:1, opacity ${opacity}`);
    }
    return found;
  });
}

const firstOf = (tile: string) => `[aria-label^="${tile}, ripple, seed 1, opacity 0"]`;
const PANE = '.pane canvas';

describe.skipIf(!isThere)('the page', () => {
  it('shows every swatch, with the reason where one is empty, whatever is in their names', () =>
    onPage(async (page) => {
      expect(await page.locator('.card').count()).toBe(14);
      expect(await page.locator('.empty').allTextContents()).toEqual([
        expect.stringMatching(/failed: .*ink/),
        expect.stringMatching(/failed: .*ink/),
      ]);
      expect(await page.locator('section h2').allTextContents()).toEqual(['large', 'small', WILD_NAME]);
      expect(await page.title()).toBe(`Spring: ${WILD_NAME}`);
    }));

  it('has all cards at one scale, that of its bar', () =>
    onPage(async (page) => {
      const gaps: number[] = [];
      for (const tile of ['large', 'small']) {
        const canvas = `${firstOf(tile)} canvas`;
        await page.locator(canvas).scrollIntoViewIfNeeded();
        await isPainted(page, canvas);
        gaps.push(await gapOf(page, canvas));
      }
      const bar = page.locator('.head .scale-bar');
      const length = (await bar.locator('.bar').boundingBox())!.width;
      const mm = Number.parseFloat((await bar.textContent())!);
      for (const gap of gaps) expect(Math.abs(((gap / 10) * mm) / length - 1), `${gaps}`).toBeLessThan(0.02);
    }));

  it('zooms at true scale, by button, wheel and key, and moves by drag', () =>
    onPage(async (page) => {
      await page.locator(`${firstOf('large')} .cloth`).click();
      await isPainted(page, PANE);
      /** None where the bar and the cloth do not agree, as between two frames. */
      const ratio = async () => {
        const length = (await page.locator('.pane .bar').boundingBox())!.width;
        const mm = Number.parseFloat((await page.locator('.pane .scale-bar').textContent())!);
        const gap = await gapOf(page, PANE);
        return Math.abs(((gap / 10) * mm) / length - 1) < 0.01 ? gap : Number.NaN;
      };
      let start = Number.NaN;
      await expect.poll(async () => (start = await ratio())).toBeGreaterThan(0);
      const toStart = async () => (await ratio()) / start;
      await page.getByRole('button', { name: 'Further' }).click();
      await expect.poll(toStart).toBeCloseTo(1 / 1.5, 2);
      await page.keyboard.press('+');
      await expect.poll(toStart).toBeCloseTo(1, 2);
      await page.getByRole('button', { name: 'Life size' }).click();
      // 96 px to the inch: CSS Values and Units Module Level 4, section 6.2.
      await expect.poll(ratio).toBeCloseTo(960 / 25.4, 0);
      await page.mouse.move(300, 300);
      await page.mouse.wheel(0, 200);
      await expect.poll(ratio).toBeLessThan(35);
      const before = await linesOf(page, PANE, 0.1);
      await page.mouse.down();
      await page.mouse.move(307, 300, { steps: 2 });
      await page.mouse.up();
      const off = async () => {
        const after = await linesOf(page, PANE, 0.1);
        return Math.min(...after.map((x) => Math.abs(x - before[2] - 7)));
      };
      await expect.poll(off).toBeLessThan(0.6);
    }));

  it('lays a half-drop as it hangs', () =>
    onPage(async (page) => {
      await page.locator(`${firstOf('large')} .cloth`).click();
      await isPainted(page, PANE);
      const rows = (mm: number) =>
        page.locator(PANE).evaluate((found, at) => {
          const canvas = found as HTMLCanvasElement;
          const scale = Math.min(canvas.width / 40, canvas.height / 30) / 1.5;
          const copy = Object.assign(document.createElement('canvas'), { width: 1, height: canvas.height });
          const context = copy.getContext('2d', { willReadFrequently: true })!;
          context.drawImage(canvas, -Math.round(at * scale), 0);
          const { data } = context.getImageData(0, 0, 1, canvas.height);
          const dark = Array.from({ length: canvas.height }, (_, y) => y).filter((y) => data[y * 4] < 90);
          return dark.map((y) => y / scale);
        }, mm);
      // Two columns of 40 mm: lines at 0, 10, 20 mm, and half of 30 mm lower.
      const [own, next] = [await rows(5), await rows(45)];
      expect(
        own.some((mm) => Math.abs(mm - 10.5) < 0.6),
        `${own}`,
      ).toBe(true);
      expect(own.some((mm) => Math.abs(mm - 15.5) < 1)).toBe(false);
      expect(
        next.some((mm) => Math.abs(mm - 15.5) < 0.6),
        `${next}`,
      ).toBe(true);
      expect(next.some((mm) => Math.abs(mm - 10.5) < 1)).toBe(false);
    }));

  it('compares two that move and zoom together, and marks what differs', () =>
    onPage(async (page) => {
      const [one, two] = [firstOf('large'), '[aria-label="large, ripple, seed 2, opacity 0"]'];
      for (const card of [one, two])
        await page
          .locator(card)
          .getByRole('button', { name: /^Compare/ })
          .click();
      await page.getByRole('button', { name: 'Side by side' }).click();
      const panes = page.locator(PANE);
      expect(await panes.count()).toBe(2);
      await page.waitForTimeout(400);
      const alike = async () => {
        const [left, right] = await panes.evaluateAll((all) =>
          all.map((one) => (one as HTMLCanvasElement).toDataURL()),
        );
        return left === right;
      };
      // At opacity 0 both seeds are the bare tile.
      expect(await alike()).toBe(true);
      const before = await panes.first().evaluate((one) => (one as HTMLCanvasElement).toDataURL());
      await page.keyboard.press('-');
      await page.keyboard.press('ArrowRight');
      await page.waitForTimeout(100);
      expect(await alike()).toBe(true);
      expect(await panes.first().evaluate((one) => (one as HTMLCanvasElement).toDataURL())).not.toBe(before);
      const marked = await page.locator('.pane').first().locator('mark').allTextContents();
      expect(marked.filter((words) => words === '1')).toHaveLength(2);
      expect(
        await page.locator('.pane').first().locator('dd', { hasText: 'normal' }).locator('mark').count(),
      ).toBe(0);
    }));

  it('filters by the values of axes: any of one axis, all of several', () =>
    onPage(async (page) => {
      const shown = () => page.locator('.card:visible').count();
      await page.getByRole('checkbox', { name: 'large', exact: true }).check();
      expect(await shown()).toBe(6);
      await page.getByRole('checkbox', { name: 'small', exact: true }).check();
      expect(await shown()).toBe(10);
      const seed = page.getByRole('group', { name: 'seed' });
      await seed.getByRole('checkbox', { name: 'bad-throw' }).check();
      expect(await shown()).toBe(2);
      expect(await page.getByText('2 of 14 swatches shown').isVisible()).toBe(true);
      await page.getByLabel('without empty ones').check();
      expect(await shown()).toBe(0);
      await page.getByRole('button', { name: 'Show all' }).click();
      expect(await shown()).toBe(14);
    }));

  it('keeps favourites, and copies a list that the command renders at print size', () =>
    onPage(
      async (page) => {
        for (const tile of ['large', 'small']) {
          await page
            .locator(firstOf(tile))
            .getByRole('button', { name: /^Favourite/ })
            .click();
        }
        await page.reload();
        await page.locator('.card').first().waitFor();
        expect(await page.locator('footer').textContent()).toContain('2 favourites');
        await page.getByLabel('favourites only').check();
        expect(await page.locator('.card:visible').count()).toBe(2);
        await page.getByRole('button', { name: 'Copy the list' }).click();
        await page.getByText('Copied to the clipboard.').waitFor();
        const saving = page.waitForEvent('download');
        await page.getByRole('button', { name: 'Save as file' }).click();
        const saved = readFileSync((await (await saving).path())!, 'utf8');
        // What was copied is pasted where a person would paste it.
        await page.evaluate(() =>
          document.querySelector('dialog.list')!.append(document.createElement('textarea')),
        );
        await page.locator('dialog.list textarea').last().focus();
        await page.keyboard.press('Control+V');
        const copied = await page.locator('dialog.list textarea').last().inputValue();
        expect(copied).toBe(saved);
        writeFileSync(join(folder, 'favourites.txt'), copied);
        expect(copied).toContain('tenter collect run spring.json --only favourites.txt --dpi 300');
        const words = [
          'spring.json',
          '--only',
          'favourites.txt',
          '--dpi',
          '254',
          '--plugins',
          'ripple.ts',
          '--trust',
        ];
        const ran = await tenter(folder, ['collect', 'run', ...words]);
        expect(ran.code, ran.out + ran.err).toBe(0);
        const prints = join(folder, 'made-254dpi');
        expect([...picturesIn(prints).keys()]).toEqual(['large/1-0.png', 'small/1-0.png']);
        expect((await sharp(join(prints, 'large/1-0.png')).metadata()).width).toBe(400);
      },
      { acceptDownloads: true },
    ));

  const clipboards: [string, () => void, boolean][] = [
    ['is missing', () => Object.defineProperty(navigator, 'clipboard', { value: undefined }), true],
    [
      'refuses',
      () => {
        navigator.clipboard.writeText = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
      },
      true,
    ],
    [
      'is missing and no selection is copied either',
      () => {
        Object.defineProperty(navigator, 'clipboard', { value: undefined });
        document.execCommand = () => false;
      },
      false,
    ],
  ];
  it.each(clipboards)(
    'copies the list where the clipboard %s, or leaves it selected and says so',
    (_, spoil, copies) =>
      onPage(
        async (page) => {
          await page
            .locator(firstOf('large'))
            .getByRole('button', { name: /^Favourite/ })
            .click();
          await page.getByRole('button', { name: 'Copy the list' }).click();
          const words = copies ? 'Copied to the clipboard.' : 'Not copied';
          await page.locator('dialog.list').getByText(words).waitFor();
          const selected = await page.evaluate(() => {
            const field = document.activeElement as HTMLTextAreaElement;
            return field.value.slice(field.selectionStart, field.selectionEnd);
          });
          expect(selected).toMatch(/^# Spring.*--only.*\nlarge\/1-0\.png\n$/s);
          const list = page.locator('dialog.list');
          expect(await list.evaluate((one) => one.scrollWidth <= one.clientWidth)).toBe(true);
          // Whoever was told to press the keys presses them.
          if (!copies) await page.keyboard.press('Control+C');
          await page.evaluate(() =>
            document.querySelector('dialog.list')!.append(document.createElement('textarea')),
          );
          await page.locator('dialog.list textarea').last().focus();
          await page.keyboard.press('Control+V');
          expect(await page.locator('dialog.list textarea').last().inputValue()).toBe(selected);
        },
        {
          viewport: { width: 390, height: 800 },
          prepare: async (page) => void (await page.addInitScript(spoil)),
        },
      ),
  );

  it('shows the artwork without texture by one key or button: same place, same scale, and back', () =>
    onPage(async (page) => {
      const drawn = (selector: string) =>
        page.locator(selector).evaluate((one) => (one as HTMLCanvasElement).toDataURL());
      const settled = async (selector: string) => {
        await isPainted(page, selector);
        await page.waitForTimeout(300);
        return drawn(selector);
      };
      // At opacity 0 a render is the artwork, at 1 it is not.
      await page.locator(`${firstOf('large').replace('opacity 0', 'opacity 1')} .cloth`).click();
      const textured = await settled(PANE);
      await page.keyboard.press('+');
      await page.keyboard.press('ArrowRight');
      const moved = await settled(PANE);
      await page.keyboard.press('o');
      const bare = await settled(PANE);
      expect(bare).not.toBe(moved);
      expect(await page.locator('.pane .state').isVisible()).toBe(true);
      await page.keyboard.press('ArrowLeft');
      await page.keyboard.press('-');
      expect(await settled(PANE)).not.toBe(textured);
      await page.keyboard.press('0');
      const whole = await settled(PANE);
      const lines = await linesOf(page, PANE, 0.1);
      expect(lines.length).toBeGreaterThan(2);
      await page.getByRole('button', { name: 'Without texture' }).last().click();
      expect(await settled(PANE)).toBe(textured);
      await page.keyboard.press('Escape');
      await page.locator(`${firstOf('large')} .cloth`).click();
      // The very lines of the artwork, to the pixel.
      const own = await settled(PANE);
      await page.keyboard.press('o');
      expect(await settled(PANE)).toBe(whole);
      const asBare = await linesOf(page, PANE, 0.1);
      await page.keyboard.press('o');
      expect(await settled(PANE)).toBe(own);
      expect(await linesOf(page, PANE, 0.1)).toEqual(asBare);
    }));

  it('has the artwork before its cards, and shows it on all of them by the key o', () =>
    onPage(async (page) => {
      expect(await page.locator('.original').count()).toBe(3);
      const canvas = `${firstOf('large').replace('opacity 0', 'opacity 1')} canvas`;
      await isPainted(page, canvas);
      await page.waitForTimeout(300);
      const drawn = (selector: string) =>
        page
          .locator(selector)
          .first()
          .evaluate((one) => (one as HTMLCanvasElement).toDataURL());
      const original = await drawn('.original canvas');
      expect(await drawn(canvas)).not.toBe(original);
      await page.keyboard.press('o');
      await page.waitForTimeout(300);
      expect(await drawn(canvas)).toBe(original);
      await page.getByRole('button', { name: 'Without texture' }).first().click();
      await page.waitForTimeout(300);
      expect(await drawn(canvas)).not.toBe(original);
    }));

  it('works where the browser keeps nothing, and says so', () =>
    onPage(
      async (page) => {
        await page
          .locator(firstOf('large'))
          .getByRole('button', { name: /^Favourite/ })
          .click();
        expect(await page.locator('footer').textContent()).toMatch(/1 favourite(?!s).*keeps nothing/);
      },
      {
        prepare: async (page) => {
          await page.addInitScript(() => {
            Object.defineProperty(window, 'localStorage', {
              get: () => {
                throw new DOMException('denied', 'SecurityError');
              },
            });
          });
        },
      },
    ));

  it('is worked by keys alone', () =>
    onPage(async (page) => {
      const handles = page.locator('.card .cloth');
      await handles.first().focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('f');
      expect(await page.locator('.card').nth(1).getAttribute('class')).toContain('favourite');
      await page.keyboard.press('c');
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('c');
      await page.keyboard.press('Enter');
      await isPainted(page, PANE);
      const title = page.locator('.viewer h2');
      expect(await title.textContent()).toContain('seed 2, opacity 0');
      await page.keyboard.press('PageDown');
      await page.waitForFunction(() =>
        document.querySelector('.viewer h2')!.textContent!.includes('seed 2, opacity 1'),
      );
      await page.keyboard.press('Escape');
      expect(await page.locator('.viewer').isVisible()).toBe(false);
      expect(await handles.nth(2).evaluate((one) => one === document.activeElement)).toBe(true);
      const unnamed = await page.locator('button, input, textarea, canvas[role]').evaluateAll(
        (all) =>
          all.filter((one) => {
            const label =
              one.getAttribute('aria-label') || one.textContent || one.closest('label')?.textContent;
            return !label?.trim();
          }).length,
      );
      expect(unnamed).toBe(0);
    }));

  it('has no letters below 13 px, and none fainter than 4.5:1 (WCAG 2.2, 1.4.3), light or dark', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      for (const width of [1280, 390]) {
        await onPage(
          async (page) => {
            await page.locator(`${firstOf('large')} summary`).click();
            await page
              .locator(firstOf('large'))
              .getByRole('button', { name: /^Compare/ })
              .click();
            expect(await hardToRead(page)).toEqual([]);
            await page.locator(`${firstOf('large')} .cloth`).click();
            await isPainted(page, PANE);
            expect(await hardToRead(page)).toEqual([]);
          },
          { colorScheme, viewport: { width, height: 800 } },
        );
      }
    }
  });

  it('is light or dark as the reader has it, readable in both (WCAG 2.2, 1.4.3), and fits 360 px', async () => {
    const grounds: number[] = [];
    for (const colorScheme of ['light', 'dark'] as const) {
      await onPage(
        async (page) => {
          const [ground, letters] = await page.evaluate(() =>
            [
              getComputedStyle(document.documentElement).backgroundColor,
              getComputedStyle(document.querySelector('.facts')!).color,
            ].map((colour) => colour.match(/\d+/g)!.slice(0, 3).map(Number)),
          );
          const light = (colour: number[]) => {
            const [r, g, b] = colour.map((byte) =>
              byte / 255 <= 0.04045 ? byte / 255 / 12.92 : ((byte / 255 + 0.055) / 1.055) ** 2.4,
            );
            return 0.2126 * r + 0.7152 * g + 0.0722 * b;
          };
          const [more, less] = [light(ground), light(letters)].sort((a, b) => b - a);
          expect((more + 0.05) / (less + 0.05)).toBeGreaterThan(4.5);
          grounds.push(light(ground));
          expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(360);
          await page.locator(`${firstOf('large')} .cloth`).click();
          await isPainted(page, PANE);
          expect(await page.locator('.viewer').evaluate((one) => one.scrollWidth <= one.clientWidth)).toBe(
            true,
          );
        },
        { colorScheme, viewport: { width: 360, height: 740 } },
      );
    }
    expect(grounds[0]).toBeGreaterThan(0.7);
    expect(grounds[1]).toBeLessThan(0.05);
  });

  it('holds pictures of what is in sight only', () =>
    onPage(
      async (page) => {
        await page.locator('.card').first().scrollIntoViewIfNeeded();
        await isPainted(page, '.card canvas');
        await page.waitForTimeout(300);
        const held = () =>
          page
            .locator('.card canvas')
            .evaluateAll((all) => all.map((one) => (one as HTMLCanvasElement).width > 0));
        const before = await held();
        expect([before[0], before.at(-1)]).toEqual([true, false]);
        await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
        await page.waitForFunction(
          () => Array.from(document.querySelectorAll<HTMLCanvasElement>('.card canvas')).at(-1)!.width > 0,
        );
        await page.waitForTimeout(300);
        expect((await held())[0]).toBe(false);
      },
      { viewport: { width: 300, height: 400 } },
    ));
});
