import { expect, it } from 'vitest';
import { Fault } from '../../fault.ts';

import { type AnyEffect, defineEffect } from '../index.ts';
import { openBench } from './bench.ts';
import type { Failed } from './failed.ts';
import { tryManySeeds } from './many-seeds.ts';

/** A row of stripes, the same for all seeds, and knots here and there: one to so many square mm. */
function knotty(perKnot: number, change: Partial<AnyEffect> = {}): AnyEffect {
  return defineEffect({
    apiVersion: 1,
    name: 'knotty',
    version: '1.0.0',
    summary: 'Stripes with a knot here and there.',
    parameters: {},
    planes: ['shade'],
    prepare({ box: { width, height }, random }) {
      const stream = random('knots');
      const count = Math.floor((width * height) / perKnot + stream.next());
      return {
        knots: Array.from({ length: count }, () => [stream.between(0, width), stream.between(0, height)]),
      };
    },
    paint({ knots }, { x, y, width, height, mmPerPixelX, mmPerPixelY }, { shade }) {
      for (let k = 0; k < width * height; k++) {
        const [mmX, mmY] = [(x + (k % width)) * mmPerPixelX, (y + Math.floor(k / width)) * mmPerPixelY];
        const isKnot = knots.some(([a, b]) => Math.hypot(a - mmX, b - mmY) < 2);
        shade[k] = (isKnot ? 0.5 : 1) * (1 - 0.2 * (Math.floor(mmX) & 1));
      }
    },
    ...(change as object),
  }) as unknown as AnyEffect;
}

async function messageOf(effect: AnyEffect): Promise<string> {
  return tryManySeeds(openBench(effect, {}), false).then(
    () => 'nothing',
    (failed: Failed) => failed.message,
  );
}

it.each([100, 600, 5000])(
  'two seeds that show no knot in a small repeat are no fault, one knot to %d mm2',
  async (area) => {
    expect(await messageOf(knotty(area))).toBe('nothing');
  },
);

it('all seeds are tried where nothing is timed, and the least where all time is over', async () => {
  expect(await tryManySeeds(openBench(knotty(100), { quick: true }), false)).toEqual({ tried: 64, left: 0 });
  let now = 0;
  const late = openBench(knotty(100), { quick: true, now: () => (now += 1e6) });
  expect(await tryManySeeds(late, false)).toEqual({ tried: 8, left: 56 });
});

it('a seed that is refused is a fault', async () => {
  const choosy = knotty(100, {
    prepare({ seed }: { seed: string }) {
      if (seed === '12')
        throw new Fault({ kind: 'usage', expected: 'another', subject: 'seed', received: seed });
      return { knots: [[seed.length, seed.charCodeAt(0) / 20]] };
    },
  } as never);
  expect(await messageOf(choosy)).toMatch(
    /^Expected a texture from any seed, but received a refusal of seed "12"/,
  );
});
