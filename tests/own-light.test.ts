/** Effects that light themselves stand in the light of the render. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Light } from '../src/composite/index.ts';
import { checkEffect } from '../src/effect/contract.ts';
import { defineEffect, numeric } from '../src/effect/index.ts';
import { resolveSteps } from '../src/host/plugins/resolve-steps.ts';
import { openShelf, type Shelf } from '../src/host/plugins/shelf.ts';
import { renderOnCrew } from '../src/host/render-on-crew.ts';
import { Crew } from '../src/host/threads/crew.ts';
import { plainFrame, prepareOrder } from '../src/render/index.ts';
import { heedsLight } from '../src/render/light-words.ts';
import { gridAtDensity } from '../src/repeat/grid.ts';
import { parseLayout } from '../src/repeat/layout.ts';

const OWN_LIGHT = ['linen-weave', 'raw-silk', 'watered-silk', 'woven-check'];
const grid = gridAtDensity({ layout: parseLayout('drop:1/2'), width: 20, height: 16 }, 5);
const light = (direction: number): Light => ({ direction, elevation: 20, gloss: 0 });
let shelf: Shelf;
const crew = new Crew(1);
beforeAll(async () => {
  shelf = await openShelf();
});
afterAll(() => crew.close());

async function render(effect: string, parameters: Record<string, number>, stated?: Light): Promise<Buffer> {
  const steps = resolveSteps(shelf, [{ effect, parameters }], '3');
  const tile = plainFrame(grid.tileWidth, grid.tileHeight, '#b0b0b0');
  const { frame } = await renderOnCrew({ grid, tile, steps, follow: 'cloth', light: stated }, { crew });
  return Buffer.from(frame.pixels);
}

it.each(OWN_LIGHT)('%s takes the light of the render where one is stated, else its own', async (effect) => {
  const own = await render(effect, { light: 40 });
  expect((await render(effect, {}, light(40))).equals(own)).toBe(true);
  expect((await render(effect, { light: 130 }, light(40))).equals(own)).toBe(true);
  expect((await render(effect, { light: 130 })).equals(own)).toBe(false);
});

it('every effect that asks where the light comes from says so to the host', () => {
  const asking = [...shelf.effects.values()].filter(({ effect }) =>
    Object.values(effect.parameters).some(({ help }) => help.startsWith('Where the light comes from')),
  );
  expect(asking.map(({ effect }) => effect.name).sort()).toEqual(OWN_LIGHT);
  expect(asking.map(({ effect }) => effect.lightFrom)).toEqual(OWN_LIGHT.map(() => 'light'));
});

it('a light changes what is kept of such an effect, and nothing of others', () => {
  const [linen, wood] = resolveSteps(shelf, [{ effect: 'linen-weave' }, { effect: 'wood-grain' }], '1');
  const job = { grid, steps: [linen, wood], follow: 'cloth' as const };
  const ordered = (step: typeof linen, stated?: Light) => prepareOrder({ ...job, light: stated }, step);
  expect(ordered(linen, light(40))).not.toEqual(ordered(linen));
  expect(ordered(wood, light(40))).toEqual(ordered(wood));
  expect([heedsLight([linen]), heedsLight([wood])]).toEqual([true, false]);
});

const turned = { unit: 'deg', min: 0, max: 360, default: 90, help: 'Where the light comes from.' } as const;
const effect = defineEffect({
  apiVersion: 1,
  name: 'lit',
  version: '1.0.0',
  summary: 'Lit.',
  parameters: { sun: numeric(turned), height: numeric({ ...turned, unit: 'mm' }) },
  planes: ['shade'],
  prepare: () => ({}),
  paint() {},
});

it('names a direction of its own, or is refused', () => {
  expect(checkEffect({ ...effect, lightFrom: 'sun' }, 'lit.ts')).toBeTruthy();
  for (const lightFrom of ['moon', 'height', 90])
    expect(() => checkEffect({ ...effect, lightFrom }, 'lit.ts')).toThrow(
      /lightFrom, the name of a parameter that is a number in deg from 0 to 360/,
    );
});
