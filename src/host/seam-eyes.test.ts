import { afterAll, expect, it } from 'vitest';
import { checkSeams, closingLayouts } from '../inspect/index.ts';
import { parseLayout } from '../repeat/layout.ts';
import { openSeamEyes } from './seam-eyes.ts';

const eyes = openSeamEyes(1100 * 1100);
afterAll(() => eyes.close());

/** Waves that close over the picture; `slant` tilts the tone, so that it does not. */
function waves(side: number, slant = 0) {
  const pixels = new Uint8Array(new SharedArrayBuffer(side * side * 4));
  for (let y = 0, at = 0; y < side; y++) {
    for (let x = 0; x < side; x++, at += 4) {
      const wave = Math.sin((2 * Math.PI * (3 * x + 2 * y)) / side) + Math.cos((2 * Math.PI * 5 * y) / side);
      pixels.fill(128 + 40 * wave + (slant * x) / side, at, at + 3);
      pixels[at + 3] = 255;
    }
  }
  return { pixels, width: side, height: side };
}

it.each([
  ['small', 300, 0, 'straight'],
  ['large', 1100, 0, 'straight'],
  ['large and open', 1100, 60, 'drop:1/2'],
  ['large and turned', 1100, 0, 'turn'],
] as const)('a %s picture is judged as on one thread', async (_, side, slant, words) => {
  const picture = waves(side, slant);
  const layout = parseLayout(words);
  expect(await eyes.check(picture, layout, { mmPerPixelX: 0.1 })).toEqual(
    checkSeams(picture, layout, { mmPerPixelX: 0.1 }),
  );
  expect(await eyes.closing(picture)).toEqual(closingLayouts(picture));
});

it('what is wrong with an order comes back as it was said there', async () => {
  const picture = waves(1101);
  const layout = parseLayout('drop:1/2');
  const said = (() => {
    try {
      checkSeams(picture, layout);
    } catch (error) {
      return error;
    }
  })();
  await expect(eyes.check(picture, layout)).rejects.toMatchObject({
    kind: 'usage',
    message: (said as Error).message,
  });
});
