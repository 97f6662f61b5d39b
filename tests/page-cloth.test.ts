import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wrapPoint } from '../src/repeat/index.ts';
import { isThere, openBrowser } from './chromium.ts';
import { differing, drawnOn, makePage, noise, onCloth, planeOf, show, trialOf } from './page-cloth/kit.ts';

if (!isThere) console.log('There is no chromium here: the cloth is not tried.');

const LAYOUTS = [
  'straight',
  'drop:1/2',
  'drop:1/3',
  'drop:2/5',
  'brick:1/2',
  'brick:1/3',
  'brick:2/5',
  'mirror-x',
  'mirror-y',
  'mirror-xy',
  'turn',
];
/** px and px per mm of the tile that is shown: both sides take halves, thirds and fifths. */
const WIDTH = 30;
const HEIGHT = 60;
const DENSITY = 2.5;
/** Places to look from, px of the plane. */
const PLACES = [
  [0, 0],
  [7, 41],
  [-13, -1],
  [WIDTH * 23 + 11, -HEIGHT * 17 - 29],
  [-WIDTH * 4_000_001 - 3, HEIGHT * 3_000_007 + 8],
];

let browser: Browser;
let text: string;
beforeAll(async () => {
  if (!isThere) return;
  text = await makePage();
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const trial = (layout: string, seed?: number) =>
  trialOf(layout, noise(WIDTH, HEIGHT, seed), WIDTH, HEIGHT, DENSITY);

describe.skipIf(!isThere)('the cloth draws what the host repeats', () => {
  it.each(LAYOUTS)('pixel by pixel: %s', (layout) =>
    onCloth(browser, text, async (page) => {
      const cloth = trial(layout);
      for (const [left, top] of PLACES) {
        await show(page, cloth, { left: left / DENSITY, top: top / DENSITY, scale: DENSITY });
        const drawn = await drawnOn(page);
        const where = `${left}, ${top}`;
        expect(differing(drawn, planeOf(cloth, left, top, 200, 150)), where).toEqual({ count: 0 });
        // It could have failed: a row further on, nearly all differ.
        expect(differing(drawn, planeOf(cloth, left, top + 1, 200, 150)).count).toBeGreaterThan(29_000);
      }
    }),
  );
  it('on whole pixels, wherever the view begins: it does not blur while it is moved', () =>
    onCloth(browser, text, async (page) => {
      const cloth = trial('drop:1/3');
      await show(page, cloth, { left: 7.4 / DENSITY, top: -8.6 / DENSITY, scale: DENSITY });
      expect(differing(await drawnOn(page), planeOf(cloth, 7, -9, 200, 150))).toEqual({ count: 0 });
    }));
  it.each(['drop:2/5', 'brick:1/3', 'turn'])('on a screen with two device pixels to one: %s', (layout) =>
    onCloth(
      browser,
      text,
      async (page) => {
        const cloth = trial(layout);
        await show(page, cloth, { left: -31 / DENSITY, top: 77 / DENSITY, scale: DENSITY / 2 });
        const drawn = await drawnOn(page);
        expect([drawn.width, drawn.height]).toEqual([400, 300]);
        expect(differing(drawn, planeOf(cloth, -31, 77, 400, 300))).toEqual({ count: 0 });
      },
      { deviceScaleFactor: 2 },
    ),
  );
  it.each(['drop:2/5', 'mirror-xy'])('from near by every sample is a square with sharp edges: %s', (layout) =>
    onCloth(browser, text, async (page) => {
      const cloth = trial(layout);
      await show(page, cloth, { left: -31 / DENSITY, top: 77 / DENSITY, scale: DENSITY * 4 });
      const drawn = await drawnOn(page);
      const samples = planeOf(cloth, -31, 77, 50, 38);
      const wanted = new Uint8Array(200 * 150 * 4);
      for (let y = 0; y < 150; y++) {
        for (let x = 0; x < 200; x++) {
          const from = ((y >> 2) * 50 + (x >> 2)) * 4;
          wanted.set(samples.subarray(from, from + 4), (y * 200 + x) * 4);
        }
      }
      expect(differing(drawn, wanted)).toEqual({ count: 0 });
    }),
  );
  it('from afar what is too fine to be seen is an even tone, and moves without shimmering', () =>
    onCloth(browser, text, async (page) => {
      const checks = new Uint8Array(WIDTH * HEIGHT * 4).map((_, i) => {
        const pixel = i >> 2;
        return i % 4 === 3 || (pixel + Math.floor(pixel / WIDTH)) % 2 ? 255 : 0;
      });
      const cloth = trialOf('drop:1/2', checks, WIDTH, HEIGHT, DENSITY);
      for (const shrink of [2, 2.7, 4, 7.3, 16]) {
        await show(page, cloth, { left: 3.3, top: 1.7, scale: DENSITY / shrink });
        const { pixels } = await drawnOn(page);
        const tones = pixels.filter((_, i) => i % 4 === 0);
        // Half of the light is 188.
        expect(Math.min(...tones), `1/${shrink}`).toBeGreaterThan(150);
        expect(Math.max(...tones), `1/${shrink}`).toBeLessThan(220);
      }
      const grained = trial('drop:1/3');
      const scale = DENSITY / 5.7;
      await show(page, grained, { left: 0, top: 0, scale });
      const before = await drawnOn(page);
      await show(page, grained, { left: 1 / scale, top: 0, scale });
      const after = await drawnOn(page);
      let worst = 0;
      for (let y = 0; y < 150; y++) {
        for (let x = 0; x < 199 * 4; x++) {
          const off = Math.abs(after.pixels[y * 800 + x] - before.pixels[y * 800 + x + 4]);
          worst = Math.max(worst, off);
        }
      }
      expect(worst).toBeLessThanOrEqual(2);
    }));
  it.each(['straight', 'drop:2/5', 'brick:1/3', 'mirror-x'])(
    'a finer part lies over a seam on every period: %s',
    (layout) =>
      onCloth(browser, text, async (page) => {
        const cloth = trial(layout);
        const fine = 2 * DENSITY;
        const [wide, high] = [26, 34];
        const at = [-11, 2 * HEIGHT - 9];
        const pixels = noise(wide, high, 5);
        for (const [left, top] of [
          [-40, 20],
          [2 * WIDTH * 301 + 3, -HEIGHT * 203],
        ]) {
          await page.evaluate(() => {
            window.cloth.part.value = undefined;
          });
          await show(page, cloth, { left: left / fine, top: top / fine, scale: fine });
          const bare = await drawnOn(page);
          await page.evaluate(
            async (look) => {
              window.cloth.part.value = await window.shown(look);
            },
            {
              width: wide,
              height: high,
              part: { left: at[0] / fine, top: at[1] / fine, width: wide / fine, height: high / fine },
              layout: cloth.made.layout,
              pixels: Buffer.from(pixels).toString('base64'),
            },
          );
          const { ax, ay, bx, by } = cloth.grid.lattice;
          const lattice = { ax: 2 * ax, ay: 2 * ay, bx: 2 * bx, by: 2 * by };
          const wanted = bare.pixels.slice();
          let inside = 0;
          for (let y = 0; y < 150; y++) {
            for (let x = 0; x < 200; x++) {
              const [u, v] = wrapPoint(lattice, left + x - at[0], top + y - at[1]);
              if (u >= wide || v >= high) continue;
              wanted.set(pixels.subarray((v * wide + u) * 4, (v * wide + u + 1) * 4), (y * 200 + x) * 4);
              inside++;
            }
          }
          expect(inside).toBeGreaterThan(1000);
          expect(differing(await drawnOn(page), wanted)).toEqual({ count: 0 });
        }
      }),
  );
  it('a cloth folded over it is drawn up to the fold, in the same view', () =>
    onCloth(browser, text, async (page) => {
      const under = trial('drop:1/3');
      const over = trial('drop:1/3', 9);
      await show(page, under, { left: 4 / DENSITY, top: -9 / DENSITY, scale: DENSITY });
      await page.evaluate(async (look) => {
        window.cloth.folded.value = { period: await window.shown(look), at: 0.5 };
      }, over.made);
      const drawn = await drawnOn(page);
      expect(differing(drawn, planeOf(over, 4, -9, 200, 150), 0, 86)).toEqual({ count: 0 });
      expect(differing(drawn, planeOf(under, 4, -9, 200, 150), 130)).toEqual({ count: 0 });
      expect(differing(drawn, planeOf(under, 4, -9, 200, 150), 100, 115).count).toBeGreaterThan(1000);
    }));
});
