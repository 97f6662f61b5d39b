import { expect, it } from 'vitest';
import { ripple } from '../../../tests/broken/ripple.ts';
import { defineEffect } from '../effect.ts';
import { openBench } from './bench.ts';
import { trySilence } from './silence.ts';

/** ms of work per mm2: 8 s for a tile of 640 x 640 mm. */
const WORK = 8000 / 640 ** 2;

/** Works by a clock of its own, at most so many times as long, in so many steps that it tells of. */
function worker(steps: number, times = 1) {
  let clock = 0;
  const effect = defineEffect({
    ...ripple,
    prepare(setting) {
      const { box, parameters, progress } = setting;
      const ms = box.width * box.height * WORK * (parameters.waves === 9 ? times : 1);
      for (let step = 1; step <= steps; step++) {
        clock += ms / steps;
        progress(step / steps);
      }
      return ripple.prepare(setting);
    },
  });
  return { bench: openBench(effect as never), work: () => clock };
}

async function caught(steps: number, times?: number): Promise<string | undefined> {
  const { bench, work } = worker(steps, times);
  return trySilence(bench, work).then(
    () => undefined,
    (error: Error) => error.message,
  );
}

it('takes what is short, and what is long and says so', async () => {
  expect(await caught(1)).toBeUndefined();
  expect(await caught(20, 8)).toBeUndefined();
});

it('foretells from small boxes a silence that no tile may have, at the dearest values too', async () => {
  expect(await caught(1, 3)).toMatch(/at least every 15 s in a tile .*some 24 s in such a tile/);
});
