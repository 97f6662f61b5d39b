import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { View } from '../src/collection/page/paint-cloth.ts';
import { isThere, openBrowser } from './chromium.ts';
import { drawnOn, makePage, noise, onCloth, pixelAt, show, trialOf } from './page-cloth/kit.ts';

const DENSITY = 2.5;
const ROOM = { viewport: { width: 800, height: 600 } };
const START: View = { left: 10, top: 20, scale: 4 };

let browser: Browser;
let text: string;
beforeAll(async () => {
  if (!isThere) return;
  text = await makePage();
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const cloth = trialOf('drop:2/5', noise(300, 600), 300, 600, DENSITY);

/** Shows a cloth and tries something on it. */
function tried(trial: (page: Page) => Promise<void>, options: Parameters<typeof onCloth>[3] = {}) {
  return onCloth(
    browser,
    text,
    async (page) => {
      await show(page, cloth, START);
      await trial(page);
    },
    { ...ROOM, ...options },
  );
}

const viewOf = (page: Page): Promise<View> => page.evaluate(() => window.cloth.view.value);

/** Waits until the cloth has come to rest. */
async function restOf(page: Page): Promise<View> {
  let before = await viewOf(page);
  for (let i = 0; i < 600; i++) {
    // A glide moves with every frame, however long a busy machine takes for one.
    await page.evaluate(
      () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
    );
    const after = await viewOf(page);
    if (JSON.stringify(after) === JSON.stringify(before)) return after;
    before = after;
  }
  throw new Error('The cloth does not come to rest.');
}

const near = (view: View) => ({
  left: expect.closeTo(view.left, 6),
  top: expect.closeTo(view.top, 6),
  scale: expect.closeTo(view.scale, 6),
});

/** The browser hands moves of fingers on with the next frame. */
const comesTo = (page: Page, view: View) => expect.poll(() => viewOf(page)).toEqual(near(view));

/** Gives the cloth a hand that writes down what it is told. */
async function giveHand(page: Page): Promise<void> {
  await page.evaluate(() => {
    const told: string[] = [];
    Object.assign(window, { told });
    const say = (word: string, point?: { x: number; y: number; pressure: number }) =>
      told.push(point ? `${word} ${point.x.toFixed(2)} ${point.y.toFixed(2)} ${point.pressure}` : word);
    window.cloth.hand.value = {
      cursor: 'crosshair',
      down: (point) => void say('down', point),
      move: (point) => void say('move', point),
      up: () => void say('up'),
      cancel: () => void say('cancel'),
      hover: (point) => void say('hover', point),
    };
  });
}

const toldOf = (page: Page) => page.evaluate(() => (window as unknown as { told: string[] }).told.splice(0));

/** Fingers on the screen, as the browser's own events. */
async function fingersOn(page: Page) {
  const session = await page.context().newCDPSession(page);
  return (
    type: 'touchStart' | 'touchMove' | 'touchEnd',
    ...points: [x: number, y: number, finger?: number][]
  ) =>
    session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: points.map(([x, y, finger], index) => ({ x, y, id: finger ?? index, force: 0.5 })),
    });
}

describe.skipIf(!isThere)('hands on the cloth', () => {
  it('the mouse drags it', () =>
    tried(async (page) => {
      await page.mouse.move(300, 300);
      await page.mouse.down();
      await page.mouse.move(340, 280);
      await page.mouse.move(380, 260, { steps: 3 });
      await page.mouse.up();
      expect(await viewOf(page)).toEqual(near({ left: -10, top: 30, scale: 4 }));
      await page.mouse.move(500, 500);
      expect((await viewOf(page)).left).toBeCloseTo(-10, 6);
    }));
  it('the wheel brings nearer what is under it', () =>
    tried(async (page) => {
      await page.mouse.move(600, 150);
      await page.mouse.wheel(0, -300);
      const view = await restOf(page);
      expect(view.scale).toBeGreaterThan(5);
      expect(view.left + 600 / view.scale).toBeCloseTo(10 + 600 / 4, 6);
      expect(view.top + 150 / view.scale).toBeCloseTo(20 + 150 / 4, 6);
    }));
  it('a double click brings nearer, with Shift further off', () =>
    tried(async (page) => {
      const canvas = page.locator('.cloth-window');
      await canvas.dblclick({ position: { x: 200, y: 100 } });
      const view = await restOf(page);
      expect(view.scale).toBeCloseTo(9, 6);
      expect(view.left + 200 / view.scale).toBeCloseTo(10 + 50, 6);
      await canvas.dblclick({ position: { x: 200, y: 100 }, modifiers: ['Shift'] });
      expect(await restOf(page)).toEqual(near(START));
    }));
  it('one finger drags it, two bring it nearer, one that stays drags on', () =>
    tried(
      async (page) => {
        const touch = await fingersOn(page);
        await touch('touchStart', [300, 300]);
        await touch('touchMove', [320, 300]);
        await touch('touchMove', [340, 300]);
        await comesTo(page, { left: 0, top: 20, scale: 4 });
        await touch('touchStart', [340, 300], [440, 300]);
        await touch('touchMove', [340, 300], [540, 300]);
        await comesTo(page, { left: 340 / 8, top: 20 + 300 / 8, scale: 8 });
        await touch('touchEnd', [540, 300, 1]);
        await touch('touchMove', [356, 300]);
        await comesTo(page, { left: 340 / 8 - 2, top: 20 + 300 / 8, scale: 8 });
        await touch('touchEnd');
      },
      { hasTouch: true },
    ));
  it('keys move it, and the middle stays where it comes nearer', () =>
    tried(async (page) => {
      await page.keyboard.press('Tab');
      const focused = page.locator('.cloth-window:focus');
      await focused.waitFor();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowDown');
      expect(await restOf(page)).toEqual(near({ left: 25, top: 35, scale: 4 }));
      await page.keyboard.press('+');
      await page.keyboard.press('+');
      const nearBy = await restOf(page);
      expect(nearBy).toEqual(near({ left: 25 + 100 - 400 / 9, top: 35 + 75 - 300 / 9, scale: 9 }));
      await page.keyboard.press('-');
      expect((await restOf(page)).scale).toBeCloseTo(6, 6);
      await page.keyboard.press('0');
      expect(await restOf(page)).toEqual(near({ left: 0, top: 0, scale: 600 / 240 / 1.5 }));
      await page.keyboard.press('1');
      expect((await restOf(page)).scale).toBeCloseTo(96 / 25.4, 6);
      const before = await viewOf(page);
      await page.keyboard.press('Shift+ArrowLeft');
      expect((await restOf(page)).left).toBeCloseTo(before.left - 640 / before.scale, 6);
      await page.keyboard.press('Control+ArrowLeft');
      expect((await restOf(page)).left).toBeCloseTo(before.left - 640 / before.scale, 6);
    }));
  it('moves at once where no motion is wanted', () =>
    tried(
      async (page) => {
        await page.locator('.cloth-window').press('+');
        expect((await viewOf(page)).scale).toBeCloseTo(6, 6);
      },
      { reducedMotion: 'reduce' },
    ));
  it('says what is shown', () =>
    tried(async (page) => {
      const canvas = page.getByRole('application');
      expect(await canvas.getAttribute('aria-label')).toBe(
        'Trial cloth, in repeat: 120 x 240 mm, drop 2/5, about 1.1 × true size',
      );
      const keys = await canvas.getAttribute('aria-describedby');
      expect(await page.locator(`[id="${keys}"]`).textContent()).toContain('Arrow keys move');
    }));
  it('keeps its middle where the window is resized', () =>
    tried(async (page) => {
      await page.setViewportSize({ width: 600, height: 700 });
      await page.waitForFunction(() => window.cloth.room.value.width === 600);
      expect(await viewOf(page)).toEqual(near({ left: 35, top: 7.5, scale: 4 }));
    }));
  it('is drawn when something changed, and not else', () =>
    tried(async (page) => {
      await page.waitForTimeout(100);
      const before = await page.evaluate(() => window.draws);
      await page.waitForTimeout(200);
      expect(await page.evaluate(() => window.draws)).toBe(before);
      await page.evaluate(() => {
        for (let i = 0; i < 9; i++) window.cloth.view.value = { left: i, top: 0, scale: 4 };
      });
      await page.waitForTimeout(100);
      expect(await page.evaluate(() => window.draws)).toBe(before + 1);
    }));
  it('draws overlays over it, in CSS px, whenever they change', () =>
    tried(
      async (page) => {
        await page.evaluate(() => {
          window.cloth.overlays.value = [
            (context, view) => {
              context.fillStyle = '#f00';
              context.fillRect((20 - view.left) * view.scale, (25 - view.top) * view.scale, 10, 10);
            },
          ];
        });
        const drawn = await drawnOn(page);
        const red = [255, 0, 0, 255];
        expect([pixelAt(drawn, 81, 41), pixelAt(drawn, 99, 59)]).toEqual([red, red]);
        expect(pixelAt(drawn, 79, 39)).not.toEqual(red);
      },
      { deviceScaleFactor: 2 },
    ));
});

describe.skipIf(!isThere)('a hand that takes the pointer', () => {
  it('is led in mm, with what was gathered between frames; the cloth stays', () =>
    tried(async (page) => {
      await giveHand(page);
      const canvas = page.locator('.cloth-window');
      expect(await canvas.evaluate((one) => (one as HTMLElement).style.cursor)).toBe('crosshair');
      await page.mouse.move(40, 80);
      await page.mouse.down();
      await page.mouse.move(60, 80);
      await page.mouse.move(60, 100);
      await page.mouse.up();
      const told = await toldOf(page);
      expect(told[0]).toBe('hover 20.00 40.00 0.5');
      expect(told).toContain('down 20.00 40.00 0.5');
      expect(told).toContain('move 25.00 40.00 0.5');
      expect(told).toContain('move 25.00 45.00 0.5');
      expect(told.filter((one) => one === 'up')).toHaveLength(1);
      expect(await viewOf(page)).toEqual(START);
      const gathered = await canvas.evaluate((one) => {
        const init = { pointerId: 1, pointerType: 'pen', bubbles: true, pressure: 0.25 };
        const at = (type: string, x: number, pressure: number, more: PointerEvent[] = []) =>
          new PointerEvent(type, { ...init, clientX: x, clientY: 80, pressure, coalescedEvents: more });
        (one as HTMLElement).setPointerCapture = () => undefined;
        one.dispatchEvent(at('pointerdown', 40, 0.25));
        const between = [at('pointermove', 44, 0.5), at('pointermove', 48, 0.75)];
        one.dispatchEvent(at('pointermove', 48, 0.75, between));
        one.dispatchEvent(at('pointerup', 48, 0));
        return (window as unknown as { told: string[] }).told.splice(0);
      });
      expect(gathered).toEqual([
        'down 20.00 40.00 0.25',
        'move 21.00 40.00 0.5',
        'move 22.00 40.00 0.75',
        'up',
      ]);
    }));
  it('is left out where the middle button or the space bar is held: the cloth is dragged', () =>
    tried(async (page) => {
      await giveHand(page);
      await page.mouse.move(100, 100);
      await page.mouse.down({ button: 'middle' });
      await page.mouse.move(140, 100);
      await page.mouse.up({ button: 'middle' });
      expect((await viewOf(page)).left).toBeCloseTo(0, 6);
      await page.keyboard.down(' ');
      await page.mouse.down();
      await page.mouse.move(100, 100);
      await page.mouse.up();
      await page.keyboard.up(' ');
      expect((await viewOf(page)).left).toBeCloseTo(10, 6);
      expect((await toldOf(page)).filter((one) => !one.startsWith('hover'))).toEqual([]);
      await page.mouse.down();
      await page.mouse.up();
      expect((await toldOf(page)).filter((one) => !one.startsWith('hover'))).toHaveLength(2);
    }));
  it('with fingers: one is led, two bring nearer and leave no trace, a second takes a stroke back', () =>
    tried(
      async (page) => {
        await giveHand(page);
        const touch = await fingersOn(page);
        await touch('touchStart', [40, 80]);
        await touch('touchMove', [60, 80]);
        await touch('touchMove', [80, 80]);
        await touch('touchEnd');
        const told = await toldOf(page);
        expect(told[0]).toBe('down 20.00 40.00 0.5');
        expect(told.at(-1)).toBe('up');
        expect(told.length).toBeGreaterThan(2);
        await touch('touchStart', [40, 80]);
        await touch('touchEnd');
        expect(await toldOf(page)).toEqual(['down 20.00 40.00 0.5', 'up']);
        await touch('touchStart', [300, 300]);
        await touch('touchStart', [300, 300], [400, 300]);
        await touch('touchMove', [300, 300], [500, 300]);
        await touch('touchEnd');
        expect(await toldOf(page)).toEqual([]);
        expect((await viewOf(page)).scale).toBeCloseTo(8, 6);
        await touch('touchStart', [300, 300]);
        await touch('touchMove', [350, 300]);
        await touch('touchStart', [350, 300], [450, 300]);
        await touch('touchEnd');
        const taken = await toldOf(page);
        expect(taken[0]).toMatch(/^down/);
        expect(taken.at(-1)).toBe('cancel');
        expect(taken).not.toContain('up');
      },
      { hasTouch: true },
    ));
});

describe.skipIf(!isThere)('the fold', () => {
  const fold = (page: Page, at: number) =>
    page.evaluate(
      async ([look, place]) => {
        window.cloth.folded.value = { period: await window.shown(look), at: place };
      },
      [cloth.made, at] as const,
    );
  const placeOf = (page: Page) => page.evaluate(() => window.cloth.folded.value!.at);

  it('is dragged by its edge, wherever it is taken hold of', () =>
    tried(async (page) => {
      await fold(page, 0.5);
      const box = (await page.getByRole('slider', { name: 'Fold' }).boundingBox())!;
      expect(box.x + box.width / 2).toBeCloseTo(400, 0);
      expect(box.width).toBeGreaterThanOrEqual(24);
      await page.mouse.move(400, 570);
      await page.mouse.down();
      await page.mouse.move(200, 300, { steps: 4 });
      await page.mouse.up();
      await page.mouse.move(700, 300);
      expect(await placeOf(page)).toBeCloseTo(0.25, 3);
      expect(await viewOf(page)).toEqual(START);
    }));
  it('is moved by keys, and says where it is', () =>
    tried(async (page) => {
      await fold(page, 0.5);
      const slider = page.getByRole('slider', { name: 'Fold' });
      await slider.press('ArrowLeft');
      await slider.press('ArrowLeft');
      expect(await placeOf(page)).toBeCloseTo(0.48, 6);
      expect(await slider.getAttribute('aria-valuenow')).toBe('48');
      await slider.press('PageUp');
      expect(await placeOf(page)).toBeCloseTo(0.58, 6);
      await slider.press('End');
      await slider.press('ArrowRight');
      expect(await placeOf(page)).toBe(1);
      const box = (await slider.boundingBox())!;
      expect(box.x + box.width).toBeLessThanOrEqual(800);
      await slider.press('Home');
      expect(await slider.getAttribute('aria-valuetext')).toBe('0 % of the window');
      expect(await viewOf(page)).toEqual(START);
      await page.evaluate(() => {
        window.cloth.folded.value = undefined;
      });
      await slider.waitFor({ state: 'detached' });
    }));
});

describe.skipIf(!isThere)('the words at the edge', () => {
  const atEdge = (trial: (page: Page) => Promise<void>, options: Parameters<typeof onCloth>[3] = {}) =>
    tried(trial, { ...options, hasEdge: true });
  const LIFE = 96 / 25.4;

  it('say the scale, by a bar and in words, and bring the cloth to others', () =>
    atEdge(async (page) => {
      const size = page.getByRole('status');
      expect(await page.locator('.cloth-bar-and-words').textContent()).toBe('20 mm');
      expect(await page.locator('.cloth-bar').evaluate((bar) => (bar as HTMLElement).style.width)).toBe(
        '80px',
      );
      await page.getByRole('button', { name: 'true size' }).click();
      expect((await restOf(page)).scale).toBeCloseTo(LIFE, 6);
      expect(await size.textContent()).toBe('about 1:1 true size');
      const { left, top, scale } = await viewOf(page);
      expect([left + 400 / scale, top + 300 / scale]).toEqual([
        expect.closeTo(110, 6),
        expect.closeTo(95, 6),
      ]);
      await page.getByRole('button', { name: 'from three metres' }).click();
      expect((await restOf(page)).scale).toBeCloseTo(LIFE / 5, 6);
      expect(await size.textContent()).toBe('about 1/5 of true size');
      expect(await page.locator('.cloth-note').textContent()).toMatch(
        /^A fifth.* The repeat shows little\.$/,
      );
      await page.getByRole('button', { name: 'whole repeat' }).click();
      expect((await restOf(page)).scale).toBeCloseTo(600 / 240 / 1.5, 6);
      expect(await page.locator('.cloth-note').count()).toBe(0);
      expect(await page.locator('[aria-current]').allTextContents()).toEqual(['whole repeat']);
    }));
  it('draw the edges of tiles and the seams, where tiles meet and nowhere else', () =>
    atEdge(async (page) => {
      const white = trialOf('drop:2/5', new Uint8Array(300 * 600 * 4).fill(255), 300, 600, DENSITY);
      await show(page, white, { left: -10, top: -30, scale: 1 });
      const dark = async () => {
        const { width, pixels } = await drawnOn(page);
        const at: [number, number][] = [];
        for (let i = 0; i < width * 500 * 4; i += 4) {
          if (pixels[i] < 128) at.push([(i / 4) % width, Math.floor(i / 4 / width)]);
        }
        return at;
      };
      expect(await dark()).toEqual([]);
      const seams = page.getByRole('button', { name: 'seams' });
      await seams.click();
      expect(await seams.getAttribute('aria-pressed')).toBe('true');
      const lies = ([x, y]: number[]) => {
        const column = Math.floor((x - 10 + 1) / 120);
        const isUpright = Math.abs(x + 0.5 - 10 - Math.round((x - 10) / 120) * 120) <= 1;
        const down = (((y + 0.5 - 30 - column * 96) % 240) + 240) % 240;
        return isUpright || Math.min(down, 240 - down) <= 1;
      };
      const dashes = await dark();
      expect(dashes.filter((one) => !lies(one))).toEqual([]);
      expect(dashes.length).toBeGreaterThan(1000);
      await page.getByRole('button', { name: 'outline of the tile' }).click();
      await seams.click();
      const lines = await dark();
      expect(lines.filter((one) => !lies(one))).toEqual([]);
      expect(lines.length).toBeGreaterThan(dashes.length * 1.5);
    }));
  it('learn the true size of a screen from a card, and keep it', () =>
    atEdge(async (page) => {
      await page.getByRole('button', { name: 'fit to a card' }).click();
      const corner = page.getByRole('slider', { name: 'Size of the card on this screen' });
      const outline = page.locator('.cloth-card-outline');
      const before = (await outline.boundingBox())!;
      expect(before.width / before.height).toBeCloseTo(85.6 / 53.98, 2);
      expect(before.width).toBeCloseTo(85.6 * LIFE, 0);
      expect(
        await outline.evaluate((one) => Number.parseFloat(getComputedStyle(one).borderRadius)),
      ).toBeCloseTo(3.18 * LIFE, 1);
      await page.mouse.move(before.x + before.width - 4, before.y + before.height - 4);
      await page.mouse.down();
      await page.mouse.move(before.x + 428, before.y + 269.9, { steps: 3 });
      await page.mouse.up();
      expect((await outline.boundingBox())!.width).toBeCloseTo(428, 0);
      await corner.press('Shift+ArrowRight');
      await corner.press('ArrowLeft');
      expect(await corner.getAttribute('aria-valuetext')).toBe('its long side 432.5 px');
      await page.getByRole('button', { name: 'It fits' }).click();
      const fitted = await page.evaluate(() => window.cloth.trueSize.value);
      expect(fitted).toEqual({ scale: expect.closeTo(432.5 / 85.6, 3), isFitted: true });
      await page.getByRole('button', { name: 'true size' }).click();
      expect((await restOf(page)).scale).toBeCloseTo(fitted.scale, 6);
      expect(await page.getByRole('status').textContent()).toBe('1:1 true size');
      await page.reload();
      await page.waitForFunction(() => window.cloth.room.value.width > 0);
      expect(await page.evaluate(() => window.cloth.trueSize.value)).toEqual(fitted);
      await page.getByRole('button', { name: 'fit to a card' }).click();
      await page.getByRole('button', { name: 'Forget the card' }).click();
      expect((await page.evaluate(() => window.cloth.trueSize.value)).isFitted).toBe(false);
      await page.getByRole('button', { name: 'fit to a card' }).click();
      await corner.press('Shift+ArrowRight');
      await page.keyboard.press('Escape');
      expect((await page.evaluate(() => window.cloth.trueSize.value)).scale).toBeCloseTo(LIFE, 6);
    }));
  it.each([
    { width: 360, height: 640, colorScheme: 'light' },
    { width: 1280, height: 800, colorScheme: 'dark' },
  ] as const)(
    'pass the accessibility rules, the card too: $width px, $colorScheme',
    ({ colorScheme, ...viewport }) =>
      atEdge(
        async (page) => {
          const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
          await page.evaluate(axe);
          await page.evaluate(async (look) => {
            window.cloth.folded.value = { period: await window.shown(look), at: 0.4 };
          }, cloth.made);
          const faults = () =>
            page.evaluate(async () => {
              type Axe = {
                run(
                  root: Document,
                  options: object,
                ): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
              };
              const { violations } = await (window as unknown as { axe: Axe }).axe.run(document, {
                runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
              });
              return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
            });
          expect(await faults()).toEqual([]);
          expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
            viewport.width,
          );
          const small = await page
            .getByRole('button')
            .evaluateAll((all) =>
              all.map((one) => one.getBoundingClientRect().height).filter((height) => height < 24),
            );
          expect(small).toEqual([]);
          await page.getByRole('button', { name: 'fit to a card' }).click();
          expect(await faults()).toEqual([]);
          const box = (await page.locator('.cloth-card-outline').boundingBox())!;
          expect(box.x + box.width).toBeLessThanOrEqual(viewport.width);
        },
        { viewport, colorScheme },
      ),
  );
});

describe.skipIf(!isThere)('the time that a frame takes', () => {
  it('is measured and printed: panning, and zooming through all scales', () =>
    tried(
      async (page) => {
        for (const layout of ['straight', 'drop:1/2']) {
          const large = trialOf(layout, noise(1200, 1200), 1200, 1200, 2);
          await show(page, large, { left: 0, top: 0, scale: 2 });
          await page.waitForTimeout(300);
          for (const [way, scale, step] of [
            ['panning', 2, 0],
            ['panning from afar', 0.4, 0],
            ['panning near by', 12, 0],
            ['zooming', 8, 0.96],
          ] as const) {
            const times = await page.evaluate(
              async ([start, factor]) => {
                window.cloth.view.value = { left: 0, top: 0, scale: start };
                await window.drawn();
                const found: number[] = [];
                let before = await new Promise<number>(requestAnimationFrame);
                for (let i = 0; i < 120; i++) {
                  const { left, top, scale } = window.cloth.view.value;
                  window.cloth.view.value = {
                    left: left + 5 / scale,
                    top: top + 3 / scale,
                    scale: factor ? scale * factor : scale,
                  };
                  const now = await new Promise<number>(requestAnimationFrame);
                  found.push(now - before);
                  before = now;
                }
                return found.sort((a, b) => a - b);
              },
              [scale, step] as const,
            );
            expect(times).toHaveLength(120);
            const figures = [0.5, 0.95, 0.999].map((share) => times[Math.floor(share * 120)].toFixed(1));
            console.log(
              `${layout}, ${way}: median ${figures[0]} ms, 95th percentile ${figures[1]}, worst ${figures[2]}`,
            );
          }
        }
      },
      { viewport: { width: 1280, height: 800 } },
    ));
});
