import { expect, it, vi } from 'vitest';
import type { Item } from '../plan/item.ts';
import { openMeans } from './means.ts';
import { staffBytes, staffFor, tileBytes, workBytes } from './need.ts';

vi.mock('../../host/threads/crew.ts', () => ({
  Crew: class {
    close() {}
  },
}));
vi.mock('../../host/threads/hands.ts', () => ({ Hands: class {} }));

const LAYOUT = { kind: 'straight' };
const item = (path: string, side: number): Item => {
  const grid = { width: side, height: side, tileWidth: side, tileHeight: side, repeat: { layout: LAYOUT } };
  const tile = { path, bits: 8, width: side, height: side, layout: LAYOUT };
  return { name: path, tile, grid, steps: [], follow: 'artwork', inputs: { steps: [] } } as unknown as Item;
};

it('what a tile takes is accounted for as long as it is held, also where room for its own render must be made', () => {
  const one = item('leaf.png', 4000);
  const need = workBytes(one, { effects: new Map(), faults: [] });
  const base = staffBytes(staffFor(1, 1e9));
  // Room for the render with its tile, and then for the render alone by half a tile too little.
  const budget = Math.max(1e9, base + need + 1.5 * tileBytes(one));
  const means = openMeans({ shelf: { effects: new Map(), faults: [] }, workers: 1, budget });
  const first = means.admit(one, 0, 1)!;
  first.end(true);
  const filler = means.memory.free - need + tileBytes(one) / 2;
  expect(means.memory.take(filler)).toBe(true);
  // Its own tile is all that could be given up for it, and it needs that tile.
  expect(means.admit(one, 0, 1)).toBeUndefined();
  means.memory.giveBack(filler);
  const before = means.memory.free;
  const again = means.admit(one, 0, 1)!;
  expect(before - means.memory.free).toBe(need);
  again.end(true);
  expect(means.memory.free).toBe(before);
});
