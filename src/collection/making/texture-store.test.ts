import { expect, it } from 'vitest';
import { layerPlace } from '../../render/layer-place.ts';
import { gridAtDensity } from '../../repeat/grid.ts';
import { parseLayout } from '../../repeat/layout.ts';
import type { Item } from '../plan/item.ts';
import { Blocks } from './blocks.ts';
import { Memory } from './memory.ts';
import { TextureStore } from './texture-store.ts';

const order = { moduleUrl: 'file:///ripple.mjs', parameters: {}, seed: '1' };
const grid = gridAtDensity({ layout: parseLayout('straight'), width: 10, height: 10 }, 10);
const steps = [{ order, declares: { planes: ['shade'] } }];
const item = { steps, grid, quality: 'finished', follow: 'cloth' } as unknown as Item;
const place = layerPlace(item, 0)!;

it('a layer whose filler fails while others wait for it is given up, and its memory with it', async () => {
  const memory = new Memory(1e9, 0);
  const store = new TextureStore(memory, new Blocks(memory));
  for (let count = 0; count < 4; count++) store.expect(item);
  const filling = await store.lendLayer(place, true);
  expect(filling?.isPainted).toBe(false);
  expect(memory.free).toBeLessThan(1e9);
  const waiting = [store.lendLayer(place, true), store.lendLayer(place, true)];
  filling!.end(false);
  expect(await Promise.all(waiting)).toEqual([undefined, undefined]);
  expect(memory.attainable).toBe(1e9);
  // The next one may try again.
  const again = await store.lendLayer(place, true);
  expect(again?.isPainted).toBe(false);
  again!.end(true);
  expect((await store.lendLayer(place, true))?.isPainted).toBe(true);
});
