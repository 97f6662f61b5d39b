import { expect, it } from 'vitest';
import { ripple } from '../../../tests/broken/ripple.ts';
import { defineEffect } from '../effect.ts';
import { openBench } from './bench.ts';
import { tryTileMemory } from './tile-memory.ts';

const MB = 2 ** 20;

/**
 * Takes so many bytes per mm2 while it prepares, and so long for a square decimetre.
 *
 * @returns What is said of it; nothing where it is taken.
 */
async function said(bytes: number, ms: number): Promise<string | undefined> {
  let [clock, thread] = [0, 0];
  const effect = defineEffect({
    ...ripple,
    prepare(setting) {
      const area = setting.box.width * setting.box.height;
      clock += (ms * area) / 1e4;
      thread += bytes * area;
      return ripple.prepare(setting);
    },
  });
  const bench = openBench(effect as never, {
    memory: () => (thread = 0),
    footprint: () => ({ process: 50 * MB, highest: 90 * MB, thread }),
  });
  return tryTileMemory(bench, () => clock).then(
    () => undefined,
    (error: Error) => error.message,
  );
}

it('counts what passes through prepare in a tile of production', async () => {
  expect(await said(1000, 1)).toBeUndefined();
  expect(await said(2500, 1)).toMatch(/at most 768 MB .* 977 MB for 640 x 640 mm, though the model may keep/);
});

it('and foretells it where the tile would take long', async () => {
  expect(await said(2500, 200)).toBeUndefined();
  expect(await said(4000, 200)).toMatch(/391 MB for 320 x 320 mm, 1563 MB in such a tile/);
});
