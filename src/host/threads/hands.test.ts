import { expect, it } from 'vitest';
import { parseLayout } from '../../repeat/layout.ts';
import { Hands } from './hands.ts';

it('a thread that cannot be had costs no place: the next one is asked all the same', async () => {
  const hands = new Hands(1, () => Promise.reject(new Error('no room for its code')));
  const tile = { pixels: new Uint8Array(4), width: 1, height: 1 };
  const ask = () =>
    hands.ask({ kind: 'tile', tile, layout: parseLayout('straight') }).catch((error) => error.message);
  const asked = Promise.all([ask(), ask(), ask()]);
  const late = new Promise((resolve) => setTimeout(resolve, 5_000, 'nobody was asked'));
  expect(await Promise.race([asked, late])).toEqual(Array(3).fill('no room for its code'));
  await hands.close();
});

const picture = { width: 1, height: 1, mmPerPixelX: 1, mmPerPixelY: 1, samples: new Uint8Array(4) };
const order = { layout: parseLayout('straight'), within: { x: 8, y: 8 } };

it.each([
  [{ kind: 'closing', picture: { pixels: picture.samples, width: 1, height: 1 } }, 'the seam check'],
  [{ kind: 'light', picture, divides: false }, 'the light of the picture'],
  [{ kind: 'plan close', picture, order }, 'making the picture close'],
] as const)('a thread that ends is told by what it was at: %#', async (asked, subject) => {
  const hands = new Hands(1, async () => new URL('data:text/javascript,process.exit(3)'));
  const ended = 'the end of its thread (exit code 3)';
  await expect(hands.ask(asked)).rejects.toMatchObject({ subject, received: ended });
});
