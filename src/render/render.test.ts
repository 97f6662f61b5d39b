import { expect, it } from 'vitest';
import { fitGrid } from '../repeat/grid.ts';
import { parseLayout } from '../repeat/layout.ts';
import { plainFrame } from './frame.ts';
import { type RenderCrew, renderTile } from './render.ts';
import type { RenderStep } from './step.ts';

const STEP: RenderStep = {
  effect: 'none',
  version: '1.0.0',
  declares: { planes: ['shade'] },
  order: { name: 'none', version: '1.0.0', moduleUrl: 'none', parameters: {}, seed: '1' },
  blend: 'multiply',
  opacity: 1,
  paper: '#ffffff',
};

it('prepares while others read the tile, and paints when they have done', async () => {
  const did: string[] = [];
  const crew: RenderCrew = {
    async prepare(orders) {
      did.push('prepared');
      return orders.map(() => ({ model: {}, planes: ['shade'], reads: [], reports: [] }));
    },
    async runPass() {
      did.push('painted');
      return [[]];
    },
  };
  let free = () => {};
  const whenFree = new Promise<void>((resolve) => {
    free = resolve;
  });
  const grid = fitGrid({ layout: parseLayout('straight'), width: 4, height: 3 }, 2);
  const tile = plainFrame(grid.tileWidth, grid.tileHeight, '#608098');
  const rendering = renderTile(
    { grid, tile, steps: [STEP], follow: 'cloth' },
    { crew, masks: [undefined], whenFree },
  );
  for (let turn = 0; turn < 50; turn++) await Promise.resolve();
  expect(did).toEqual(['prepared']);
  free();
  await rendering;
  expect(did).toEqual(['prepared', 'painted']);
});
