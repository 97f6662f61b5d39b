import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { ripple } from '../../../../tests/broken/ripple.ts';
import { defineEffect } from '../../effect.ts';
import { openBench } from '../bench.ts';
import { memory } from './memory.ts';

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

function bytesInUse(): number {
  collectGarbage();
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}

/** Numbers that each model has besides. */
const HEAVY = 50_000;
const kept: object[] = [];
let last: WeakRef<object> | undefined;

/** @param remember What is done with every model that is painted. */
function remembering(remember: (model: object) => void) {
  return defineEffect({
    ...ripple,
    prepare: async (setting) => ({
      ...(await ripple.prepare(setting)),
      heavy: new Float64Array(HEAVY).fill(1),
    }),
    paint(model, band, layer) {
      remember(model);
      ripple.paint(model as never, band, layer as never);
    },
  });
}

it.each([
  [
    'takes an effect that holds its last model weakly',
    'passed',
    (model: object) => (last = new WeakRef(model)),
  ],
  ['finds one that holds all of them', 'failed', (model: object) => kept.push(model)],
])('%s', async (_, status, remember) => {
  const bench = openBench(remembering(remember) as never, { memory: bytesInUse });
  const verdict = await memory.run(bench).catch(() => ({ status: 'failed' }));
  expect(verdict.status).toBe(status);
  expect(last).toBeDefined();
});
