import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OpenedPage } from './page-kit.ts';
import {
  another,
  BIRD,
  type ClothSeen,
  clothSeen,
  forgetSession,
  freshFolder,
  GROUND,
  isThere,
  lay,
  mixed,
  openBird,
  openBrowser,
  sameAs,
  settled,
  shot,
  sweep,
  walk,
  write,
} from './page-walk-kit.ts';

let folder: string;
let browser: Browser;
let opened: OpenedPage;

beforeAll(async () => {
  if (!isThere) return;
  folder = await freshFolder();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  if (folder) sweep(folder);
});

/** Each walk finds the page as it was first opened. */
const fresh = (way: (page: Page) => Promise<void>) => async () => {
  forgetSession(folder);
  opened = await openBird(folder);
  try {
    await walk(browser, opened, async (page) => {
      await way(page);
      await undoneWhole(page);
    });
  } finally {
    await opened.end();
  }
};

/** All that was done is undone by keys, one after the other, and the bare tile is there again. */
async function undoneWhole(page: Page): Promise<void> {
  const undo = page.getByRole('button', { name: 'undo', exact: true });
  await page.getByRole('application').focus();
  for (let step = 0; step < 60 && (await undo.isEnabled()); step++) await page.keyboard.press('Control+z');
  const { colours } = await clothSeen(page);
  expect(colours.slice(0, 2)).toEqual([GROUND, BIRD]);
  await expect.poll(() => page.getByRole('listitem', { name: /^1\. / }).count()).toBe(0);
}

const number = (page: Page, name: string) => page.getByRole('spinbutton', { name, exact: true });

/** The colour that the ink makes of the ground, as it is on the cloth. */
const inked = ({ colours }: ClothSeen): string => colours.find((colour) => colour !== GROUND)!;

const INK = '#204080';

describe.runIf(isThere)('values are the controls', () => {
  it(
    'numbers are stepped by arrows, dragged, and written with their unit',
    fresh(async (page) => {
      await lay(page, 'stripes');
      let seen = await clothSeen(page);
      expect(inked(seen)).toBe(mixed(GROUND, INK, 0.5));
      const cover = number(page, 'cover');
      await cover.focus();
      await page.keyboard.press('Shift+ArrowUp');
      seen = await another(page, seen);
      expect(inked(seen)).toBe(mixed(GROUND, INK, 0.6));
      await page.keyboard.press('End');
      seen = await another(page, seen);
      expect(seen.colours).toContain(INK);
      await write(page, 'cover', '25 %');
      seen = await another(page, seen);
      expect(inked(seen)).toBe(mixed(GROUND, INK, 0.25));
      await write(page, 'cover', '80');
      seen = await another(page, seen);
      expect(inked(seen)).toBe(mixed(GROUND, INK, 0.8));
      const box = (await cover.boundingBox())!;
      await page.mouse.move(box.x + 5, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(box.x - 123, box.y + box.height / 2, { steps: 6 });
      await page.mouse.up();
      seen = await another(page, seen);
      expect(inked(seen)).toBe(mixed(GROUND, INK, 0.4));
      const before = seen;
      await write(page, 'pitch', '3 cm');
      seen = await another(page, seen);
      await expect.poll(() => number(page, 'pitch').textContent()).toBe('30 mm');
      await page.keyboard.press('Control+z');
      await sameAs(page, before);
      await page.keyboard.press('Control+Shift+z');
      await sameAs(page, seen);
    }),
  );

  it(
    'wrong words are marked, and change nothing',
    fresh(async (page) => {
      await lay(page, 'stripes');
      const before = await clothSeen(page);
      await number(page, 'pitch').press('Enter');
      const field = page.getByRole('textbox', { name: /^pitch, from 5 mm to 30 mm/ });
      await field.fill('a lot');
      await field.press('Enter');
      await expect.poll(() => field.getAttribute('aria-invalid')).toBe('true');
      await shot(page, 'wrong-words');
      await field.press('Escape');
      await expect.poll(() => number(page, 'pitch').textContent()).toBe('15 mm');
      await sameAs(page, before);
      await write(page, 'pitch', '500 mm');
      await expect.poll(() => number(page, 'pitch').textContent()).toBe('30 mm');
      await page.getByText('1 finer point').click();
      const letters = page.getByRole('textbox', { name: /^letters/ });
      const seen = await clothSeen(page);
      await letters.fill('B2');
      await expect.poll(() => letters.getAttribute('aria-invalid')).toBe('true');
      await page.getByText('expects one to four of the letters A to D').waitFor();
      await sameAs(page, seen);
    }),
  );

  it(
    'choices, colours, switches, lists and texts',
    fresh(async (page) => {
      await lay(page, 'stripes');
      let seen = await clothSeen(page);
      const was = seen;
      await page.getByRole('combobox', { name: 'way' }).selectOption('level');
      seen = await another(page, seen);
      expect(inked(seen)).toBe(inked(was));
      await page.getByLabel(/^ink, /).fill('#107020');
      seen = await another(page, seen);
      expect(inked(seen)).toBe(mixed(GROUND, '#107020', 0.5));
      await page.getByRole('switch', { name: /^dry/ }).click();
      seen = await another(page, seen);
      expect(inked(seen)).toBe(mixed(GROUND, '#107020', 0.25));
      await page.getByRole('button', { name: 'shares: one more' }).click();
      await settled(page);
      await number(page, 'shares, 1 of 2').press('End');
      seen = await another(page, seen);
      expect(seen.colours[0]).toBe(mixed(GROUND, '#107020', 0.25));
      await page.getByRole('button', { name: 'shares: one fewer' }).click();
      seen = await another(page, seen);
      await page.getByText('1 finer point').click();
      await page.getByRole('textbox', { name: /^letters/ }).fill('B');
      seen = await another(page, seen);
      expect(seen.colours).toContain(mixed(GROUND, '#ef8fdf', 0.25));
    }),
  );

  it(
    'strength and blend, by the step',
    fresh(async (page) => {
      await lay(page, 'stripes');
      let seen = await clothSeen(page);
      await write(page, 'strength', '50 %');
      seen = await another(page, seen);
      expect(inked(seen)).toBe(mixed(GROUND, INK, 0.25));
      await page.getByRole('combobox', { name: 'blend mode' }).selectOption('multiply');
      seen = await another(page, seen);
      const product = mixed(GROUND, '#1e3a6c', 0.25);
      expect(inked(seen)).toBe(product);
      await shot(page, 'multiply');
    }),
  );

  it(
    'presets and light, of an effect that comes with the program',
    fresh(async (page) => {
      await lay(page, 'linen weave');
      let seen = await clothSeen(page);
      await page.getByRole('button', { name: 'as it comes' }).click();
      await page.getByRole('button', { name: 'kitchen apron' }).click();
      seen = await another(page, seen);
      await shot(page, 'presets');
      const reset = await clothSeen(page);
      await page.getByRole('button', { name: 'as it comes' }).click();
      await another(page, reset);
      await page.keyboard.press('Control+z');
      await sameAs(page, reset);
      await page.getByRole('button', { name: 'take away' }).click();
      await lay(page, 'paper tooth');
      seen = await clothSeen(page);
      await number(page, 'light, elevation').press('Shift+ArrowDown');
      seen = await another(page, seen);
      await number(page, 'light, direction').press('Shift+ArrowDown');
      await another(page, seen);
    }),
  );
});

describe.runIf(isThere)('steps of the recipe', () => {
  it(
    'are held off, laid again, moved, thrown again and taken away',
    fresh(async (page) => {
      const bare = await clothSeen(page);
      await lay(page, 'stripes');
      const first = await clothSeen(page);
      const steps = page.getByRole('listitem', { name: /^\d\. / });
      await page.getByRole('button', { name: 'hold off' }).click();
      await sameAs(page, bare);
      await page.getByRole('listitem', { name: '1. stripes, held off' }).waitFor();
      await page.getByRole('button', { name: 'lay it again' }).click();
      await sameAs(page, first);
      await page
        .getByRole('listitem', { name: /^1\. / })
        .getByRole('button', { name: 'another throw' })
        .click();
      const thrown = await another(page, first);
      await page.getByRole('button', { name: /^Another throw/ }).click();
      const all = await another(page, thrown);
      await lay(page, 'stripes');
      await expect.poll(() => steps.count()).toBe(2);
      await steps
        .nth(1)
        .getByLabel(/^ink, /)
        .fill('#c0a000');
      await steps.nth(1).getByRole('combobox', { name: 'way' }).selectOption('level');
      const two = await another(page, all);
      expect(two.colours).toContain(mixed(mixed(GROUND, INK, 0.5), '#c0a000', 0.5));
      await steps.nth(1).getByRole('button', { name: 'sooner' }).click();
      const turned = await another(page, two);
      expect(turned.colours).toContain(mixed(mixed(GROUND, '#c0a000', 0.5), INK, 0.5));
      await steps.nth(0).getByRole('button', { name: 'later' }).click();
      await sameAs(page, two);
      await steps.nth(1).getByRole('button', { name: 'take away' }).click();
      await sameAs(page, all);
      await steps.nth(0).getByRole('button', { name: 'take away' }).click();
      await sameAs(page, bare);
    }),
  );

  it(
    'are hidden as long as o is held down, and thrown again by t',
    fresh(async (page) => {
      const bare = await clothSeen(page);
      await lay(page, 'stripes');
      const laid = await clothSeen(page);
      await page.getByRole('application').focus();
      await page.keyboard.down('o');
      await sameAs(page, bare);
      await page.keyboard.up('o');
      await sameAs(page, laid);
      await page.keyboard.press('t');
      await another(page, laid);
    }),
  );
});

describe.runIf(isThere)('layout and size', () => {
  it(
    'are said in the head, and change how the cloth stands',
    fresh(async (page) => {
      const straight = await clothSeen(page);
      await page.getByRole('status').filter({ hasText: 'It closes.' }).waitFor();
      await page.getByRole('combobox', { name: 'layout' }).selectOption('drop:1/2');
      const drop = await another(page, straight);
      expect(drop.colours.slice(0, 2)).toEqual([GROUND, BIRD]);
      await write(page, 'width of the tile', '3 cm');
      await page.getByText(/by 30 mm/).waitFor();
      const small = await another(page, drop);
      await shot(page, 'half-drop');
      await page.getByRole('button', { name: 'undo', exact: true }).click();
      await sameAs(page, drop);
      await page.getByRole('button', { name: 'redo', exact: true }).click();
      await sameAs(page, small);
    }),
  );
});
