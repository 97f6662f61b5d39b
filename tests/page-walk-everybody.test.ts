import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  another,
  clothSeen,
  freshFolder,
  freshWalk,
  GROUND,
  isThere,
  lay,
  openBrowser,
  savedIn,
  settled,
  shot,
  sweep,
} from './page-walk-kit.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

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

interface Found {
  readonly violations: readonly {
    readonly id: string;
    readonly help: string;
    readonly nodes: readonly { readonly target: readonly string[]; readonly failureSummary?: string }[];
  }[];
}

/** What the rules of WCAG 2.2 AA that can be looked for find on the page as it stands. */
async function found(page: Page, state: string): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(AXE);
  const { violations } = await page.evaluate(
    (values) =>
      (window as never as { axe: { run(options: object): Promise<Found> } }).axe.run({
        runOnly: { type: 'tag', values },
      }),
    RULES,
  );
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${state}: ${id} (${help}) at ${target}: ${failureSummary}`),
  );
}

/** Every state of the page, one after the other. */
async function throughAll(page: Page, look: (state: string) => Promise<void>): Promise<void> {
  const press = (name: string | RegExp) => page.getByRole('button', { name, exact: true }).first().click();
  const lies = (words: string) =>
    page.getByRole('combobox', { name: 'where the step lies' }).selectOption({ label: words });
  await look('start');
  await lay(page, 'linen weave');
  await look('a step');
  await press('Then lay something more');
  await look('effects open');
  await press('Then lay something more');
  await page.getByText(/finer points?$/).click();
  await look('finer points');
  await page.getByRole('button', { name: 'as it comes' }).click();
  await settled(page);
  await look('presets open');
  await page.getByRole('spinbutton', { name: 'strength' }).press('Enter');
  await look('a value is written');
  await page.keyboard.press('Escape');
  await lies('only on colours that I touch');
  await settled(page);
  await look('colours at hand');
  await lies('all around a painted resist');
  await look('brush at hand');
  await lies('over all of it');
  await press('hold off');
  await look('held off');
  await press('lay it again');
  await press(/^Pin/);
  await press(/five strengths/);
  await settled(page);
  await look('trials hung');
  await press(/^fold over: /);
  await page.getByRole('slider', { name: 'Fold' }).waitFor();
  await look('folded');
  await press(/^fold over: /);
  await press(/^Name: /);
  await look('a trial is named');
  await page.keyboard.press('Escape');
  await press('keys');
  await look('keys');
  await page.keyboard.press('Escape');
  await press('open a picture');
  const dialog = page.getByRole('dialog', { name: 'Open a picture' });
  await dialog.getByLabel(/^A tile that stands/).setInputFiles(join(there.folder, 'stripes.ts'));
  await dialog.getByRole('alert').waitFor();
  await look('no picture');
  await dialog.getByLabel(/^A tile that stands/).setInputFiles(join(there.folder, 'bird.png'));
  await dialog.getByText(/^It closes so/).waitFor();
  await look('open a picture');
  await page.keyboard.press('Escape');
  await press('fit to a card');
  await look('fit to a card');
  await page.keyboard.press('Escape');
  await press('from three metres');
  await look('from three metres');
  await press('Save…');
  await settled(page);
  await look('save');
  await page.getByText('the same from a terminal').click();
  await look('save, the command');
  const name = `${page.viewportSize()!.width}-${Math.random().toString(36).slice(2)}`;
  await page.getByRole('textbox', { name: /^Name it/ }).fill(name);
  await page.getByRole('dialog').getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText(`Saved ${name}.png.`).waitFor({ timeout: 30_000 });
  await look('saved');
  const [note, savings] = await Promise.all(
    ['.cloth-note', '.savings'].map(async (place) => (await page.locator(place).boundingBox())!),
  );
  expect(note.y).toBeGreaterThanOrEqual(savings.y + savings.height - 1);
  await lay(page, 'stubborn');
  await page.getByRole('combobox', { name: 'does' }).selectOption('throw');
  await page.getByRole('alert').filter({ hasText: 'The vat ran dry' }).waitFor();
  await look('a message');
}

describe.runIf(isThere)('axe-core finds nothing', () => {
  for (const [colorScheme, width] of [
    ['light', 1280],
    ['dark', 1280],
    ['light', 360],
    ['dark', 360],
  ] as const) {
    it(
      `in any state, ${colorScheme}, ${width} px wide`,
      freshWalk(
        () => there,
        async (page) => {
          const wrong: string[] = [];
          await throughAll(page, async (state) => {
            wrong.push(...(await found(page, state)));
            await shot(page, `${width}-${colorScheme}-${state.replaceAll(' ', '-')}`);
          });
          expect([...new Set(wrong)]).toEqual([]);
        },
        {
          ...{ colorScheme, bypassCSP: true, viewport: { width, height: width < 400 ? 740 : 800 } },
          hasTouch: width < 400,
          expected: /status of 4\d\d/,
        },
      ),
    );
  }
});

/** Goes on by Tab until something has the focus. */
async function tabTo(page: Page, to: Locator): Promise<void> {
  for (let press = 0; press < 120; press++) {
    if (await to.evaluateAll((all) => all.includes(document.activeElement as never))) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab never came to ${to}`);
}

describe.runIf(isThere)('for everybody', () => {
  it(
    'a whole job by keys alone: a texture is laid, set, pinned and saved',
    freshWalk(
      () => there,
      async (page) => {
        const bare = await clothSeen(page);
        await tabTo(page, page.getByRole('button', { name: 'linen weave', exact: true }));
        await page.keyboard.press('Enter');
        const laid = await another(page, bare);
        await tabTo(page, page.getByRole('spinbutton', { name: 'strength' }));
        await page.keyboard.press('Enter');
        await page.keyboard.type('40 %');
        await page.keyboard.press('Enter');
        await another(page, laid);
        await tabTo(page, page.getByRole('button', { name: /^Pin/ }));
        await page.keyboard.press('Enter');
        await page.getByRole('button', { name: /^Lay linen weave/ }).waitFor();
        await tabTo(page, page.getByRole('button', { name: 'Save…' }));
        await page.keyboard.press('Enter');
        await tabTo(page, page.getByRole('textbox', { name: /^Name it/ }));
        await page.keyboard.press('Control+a');
        await page.keyboard.type('by-keys');
        await page.keyboard.press('Enter');
        await page.getByText('Saved by-keys.png.').waitFor({ timeout: 30_000 });
        expect(savedIn(there.folder)).toContain('by-keys.png');
      },
    ),
  );

  it(
    'by touch in a window of 360 px, nothing wider than it',
    freshWalk(
      () => there,
      async (page) => {
        const bare = await clothSeen(page);
        await page.getByRole('button', { name: 'stripes', exact: true }).tap();
        const laid = await another(page, bare);
        expect(laid.colours).toContain(GROUND);
        await page.getByRole('button', { name: 'hold off' }).tap();
        await another(page, laid);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        expect(wide).toBeLessThanOrEqual(360);
        await page.getByRole('button', { name: 'fold the ticket' }).tap();
        await shot(page, 'phone-folded');
        await page.getByRole('button', { name: 'unfold the ticket' }).tap();
      },
      { hasTouch: true, viewport: { width: 360, height: 740 } },
    ),
  );

  it(
    'without motion where that is asked: a word of the edge is there at once',
    freshWalk(
      () => there,
      async (page) => {
        const whole = await clothSeen(page);
        const marks = await page.getByRole('button', { name: 'true size' }).evaluate(async (button) => {
          (button as HTMLElement).click();
          const seen: string[] = [];
          for (let frame = 0; frame < 20; frame++) {
            await new Promise(requestAnimationFrame);
            seen.push(document.querySelector('.cloth-scale [role=status]')!.textContent!);
          }
          return new Set(seen.slice(2)).size;
        });
        expect(marks).toBe(1);
        await another(page, whole);
      },
      { reducedMotion: 'reduce' },
    ),
  );
});
