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
