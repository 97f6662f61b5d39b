import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  another,
  BIRD,
  clothSeen,
  colourAt,
  freshFolder,
  freshWalk,
  GROUND,
  isThere,
  lay,
  mixed,
  openBrowser,
  sameAs,
  settled,
  shot,
  sweep,
  write,
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

const fresh = (way: (page: Page) => Promise<void>) => freshWalk(() => there, way);

const INK = '#204080';

/** One even coat of ink over all of the cloth. */
async function layCoat(page: Page): Promise<void> {
  await lay(page, 'stripes');
  await page.getByRole('button', { name: 'shares: one more' }).click();
  await write(page, 'shares, 1 of 2', '90');
  await expect
    .poll(async () => (await clothSeen(page)).colours.slice(0, 2))
    .toEqual([mixed(GROUND, INK, 0.5), mixed(BIRD, INK, 0.5)]);
}

const lies = (page: Page, words: string) =>
  page.getByRole('combobox', { name: 'where the step lies' }).selectOption({ label: words });

describe.runIf(isThere)('where it lies', () => {
  it(
    'by colours, touched on the cloth',
    fresh(async (page) => {
      await layCoat(page);
      const coat = await clothSeen(page);
      await lies(page, 'only on colours that I touch');
      await page.getByRole('button', { name: `${GROUND}, 84 % of the tile` }).waitFor();
      await settled(page);
      // The bird, where the whole repeat is shown: it fills the middle of the tile.
      await page.mouse.click(260, 260);
      await page.getByRole('button', { name: /^#b03020/, pressed: true }).waitFor();
      await shot(page, 'touch');
      await page.getByRole('button', { name: 'done', exact: true }).click();
      const masked = await another(page, coat);
      expect(masked.colours.slice(0, 2)).toEqual([GROUND, mixed(BIRD, INK, 0.5)]);
      await page.getByText(/It lies on 1[56](\.\d)? % of the cloth\./).waitFor();
      await lies(page, 'everywhere but on colours that I touch');
      await page.getByRole('button', { name: 'done', exact: true }).click();
      const spared = await another(page, masked);
      expect(spared.colours.slice(0, 2)).toEqual([mixed(GROUND, INK, 0.5), BIRD]);
      await page.getByRole('application').focus();
      await page.keyboard.press('Control+z');
      await sameAs(page, masked);
      await page.keyboard.press('Control+z');
      await sameAs(page, coat);
    }),
  );

  it(
    'around a resist that is painted over a seam with the mouse, undone and redone',
    fresh(async (page) => {
      await layCoat(page);
      const coat = await clothSeen(page);
      await lies(page, 'all around a painted resist');
      await page.getByLabel('Edge of the brush').selectOption({ label: 'crisp edged' });
      // Half a window is some 45 mm; from tile to tile over the corner where four of them meet.
      await page.mouse.move(480, 520);
      await page.mouse.down();
      await page.mouse.move(600, 640, { steps: 8 });
      await page.mouse.up();
      await shot(page, 'brush');
      await page.getByRole('button', { name: 'done', exact: true }).click();
      const painted = await another(page, coat);
      const bare = await colourAt(page, 540, 580);
      expect([GROUND, BIRD]).toContain(bare);
      // The same place of the next tile, which is as wide as 533 px.
      expect(painted.colours).toContain(GROUND);
      await page.getByText(/lies on [6-9]\d(\.\d)? % of the cloth/i).waitFor();
      await page.getByRole('application').focus();
      await page.keyboard.press('Control+z');
      await sameAs(page, coat);
      await page.keyboard.press('Control+Shift+z');
      await sameAs(page, painted);
      await page.getByRole('button', { name: 'take the brush' }).click();
      await page.getByRole('button', { name: 'Clear' }).click();
      await page.getByRole('button', { name: 'done', exact: true }).click();
      await sameAs(page, coat);
      await page.getByRole('application').focus();
      await page.keyboard.press('Control+z');
      await sameAs(page, painted);
    }),
  );
});

describe.runIf(isThere)('trials', () => {
  it(
    'are pinned, renamed, laid again, folded over and taken down',
    fresh(async (page) => {
      await layCoat(page);
      const coat = await clothSeen(page);
      await page.getByRole('button', { name: /^Pin/ }).click();
      const trials = page.getByRole('region', { name: 'Trials' });
      await trials.getByRole('button', { name: /^Name: / }).click();
      const name = page.getByRole('textbox', { name: 'Name of the trial' });
      await name.fill('even coat');
      await name.press('Enter');
      await page.getByLabel(/^ink, /).fill('#107020');
      const green = await another(page, coat);
      await trials.getByRole('button', { name: 'fold over: even coat' }).click();
      const fold = page.getByRole('slider', { name: 'Fold' });
      await fold.waitFor();
      const folded = await another(page, green);
      expect(folded.colours).toContain(mixed(GROUND, INK, 0.5));
      expect(folded.colours).toContain(mixed(GROUND, '#107020', 0.5));
      expect(await colourAt(page, 60, 600)).toBe(mixed(GROUND, INK, 0.5));
      expect(await colourAt(page, 830, 600)).toBe(mixed(GROUND, '#107020', 0.5));
      await shot(page, 'fold');
      const box = (await fold.boundingBox())!;
      await page.mouse.move(box.x + box.width / 2, 500);
      await page.mouse.down();
      await page.mouse.move(20, 500, { steps: 5 });
      await page.mouse.up();
      await expect.poll(() => fold.getAttribute('aria-valuenow')).toBe('2');
      expect(await colourAt(page, 60, 600)).toBe(mixed(GROUND, '#107020', 0.5));
      await fold.focus();
      await page.keyboard.press('End');
      await expect.poll(() => colourAt(page, 830, 600)).toBe(mixed(GROUND, INK, 0.5));
      await trials.getByRole('button', { name: 'fold over: even coat' }).click();
      await sameAs(page, green);
      await trials.getByRole('button', { name: 'Lay even coat' }).click();
      await sameAs(page, coat);
      await trials.getByRole('button', { name: 'take down: even coat' }).click();
      await expect.poll(() => trials.getByRole('listitem').count()).toBe(0);
    }),
  );

  it(
    'six throws and five strengths are hung at once, each another cloth',
    fresh(async (page) => {
      await lay(page, 'stripes');
      const seen = await clothSeen(page);
      const trials = page.getByRole('region', { name: 'Trials' });
      await trials.getByRole('button', { name: 'hang six throws' }).click();
      await expect.poll(() => trials.getByRole('listitem').count()).toBe(6);
      await expect.poll(() => smallMarks(page)).toBe(6);
      await shot(page, 'six-throws');
      await trials.getByRole('button', { name: 'Lay throw 4' }).click();
      const fourth = await another(page, seen);
      await page.getByRole('application').focus();
      await page.keyboard.press('Control+z');
      await sameAs(page, seen);
      await page.keyboard.press('Control+y');
      await sameAs(page, fourth);
      await trials.getByRole('button', { name: 'take all down' }).click();
      await expect.poll(() => trials.getByRole('listitem').count()).toBe(0);
      await trials.getByRole('button', { name: /five strengths/ }).click();
      await expect.poll(() => smallMarks(page)).toBe(5);
      await shot(page, 'strengths');
    }),
  );
});

/** How many small cloths on the line differ from each other, once all are drawn. */
function smallMarks(page: Page): Promise<number> {
  return page.evaluate(() => {
    const cloths = Array.from(
      document.querySelectorAll<HTMLCanvasElement>('.hung .small-cloth.there canvas'),
    );
    return new Set(cloths.map((cloth) => cloth.toDataURL())).size;
  });
}
