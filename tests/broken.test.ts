import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type AnyEffect, defineEffect } from '../src/effect/index.ts';
import {
  type CheckName,
  describeFailures,
  type Failure,
  type ProofReport,
  proveEffect,
} from '../src/effect/prove/index.ts';
import { ripple, shadeAt } from './broken/ripple.ts';

/** Each broken effect and the one check that must catch it; no other may fail. */
const CAUGHT_BY: Readonly<Record<string, CheckName>> = {
  'added-plane': 'planes',
  'band-start': 'bands',
  'class-model': 'clone',
  clock: 'hidden',
  'coarse-places': 'periodic',
  'combined-negative': 'parameters',
  counter: 'twice',
  'extreme-nan': 'parameters',
  'function-model': 'clone',
  'gated-chance': 'hidden',
  'gated-start': 'bands',
  'half-of-third': 'periodic',
  'heavy-model': 'cost',
  'hidden-chance': 'hidden',
  'ignores-abort': 'abort',
  'into-the-buffer': 'inside',
  'kept-chance': 'twice',
  'last-prepared': 'state',
  'mutated-parameter': 'setting',
  'no-number': 'finite',
  'one-seed': 'seed',
  'other-sketch': 'sketch',
  'outside-band': 'inside',
  'pixel-lines': 'resolution',
  'pixel-noise': 'resolution',
  'point-sampled': 'resolution',
  'scratch-in-model': 'model',
  'sorted-palette': 'setting',
  'stale-cache': 'state',
  'throws-text': 'runs',
  'tiny-infinite': 'finite',
  'unasked-plane': 'planes',
  'undeclared-plane': 'planes',
  wrapped: 'seam',
  'wrong-drop': 'periodic',
};
/** What is left of the parameters where the defaults keep the promise: each of these is needed to break it. */
const SMALLEST: Readonly<Record<string, object>> = {
  'combined-negative': { height: 1, depth: 0.4 },
  'extreme-nan': { height: 0 },
  'gated-chance': { height: 1 },
  'gated-start': { depth: 0.4, waves: 1 },
  'unasked-plane': { height: 0 },
};
/** These would take the test with them; tests/prove-plugin.test.ts has them in a thread. */
const IN_A_THREAD = ['endless', 'flood', 'leak', 'leaves-error', 'quits', 'slow'];
/** There is nothing to see of these. */
const INVISIBLE: readonly CheckName[] = ['abort', 'cost', 'model', 'runs', 'setting'];

async function brokenEffect(name: string): Promise<AnyEffect> {
  return (await import(`./broken/${name}.ts`)).default;
}

function failuresOf({ results }: ProofReport): [CheckName, Failure][] {
  return results.flatMap((result) => (result.status === 'failed' ? [[result.check, result.failure]] : []));
}

it('has every effect of the shelf on its list', () => {
  const files = readdirSync(new URL('broken', import.meta.url)).map((file) => file.replace('.ts', ''));
  expect(files.filter((name) => name !== 'ripple').sort()).toEqual(
    [...Object.keys(CAUGHT_BY), ...IN_A_THREAD].sort(),
  );
});

it('proves the sound twin of them all', async () => {
  const report = await proveEffect(ripple, { now: () => performance.now() });
  expect(report.proven, describeFailures(report)).toBe(true);
  const left = report.results.filter(({ status }) => status === 'not applicable').map(({ check }) => check);
  expect(left).toEqual(['memory', 'presets', 'sketch']);
});

it('forgives the last bits of places far out', async () => {
  const rounded = defineEffect({
    ...ripple,
    paint(model, band, layer) {
      for (let j = 0, k = 0; j < band.height; j++) {
        for (let i = 0; i < band.width; i++, k++) {
          const x = Math.fround((band.x + i + 0.5) * band.mmPerPixelX);
          const y = Math.fround((band.y + j + 0.5) * band.mmPerPixelY);
          layer.shade[k] = shadeAt(model, x, y, band);
        }
      }
    },
  });
  const report = await proveEffect(rounded, { quick: true });
  expect(report.proven, describeFailures(report)).toBe(true);
});

describe('each broken effect is caught by its check and no other', () => {
  it.each(Object.entries(CAUGHT_BY))('%s: %s', async (name, check) => {
    const report = await proveEffect(await brokenEffect(name), { quick: true });
    expect(
      failuresOf(report).map(([failed]) => failed),
      describeFailures(report),
    ).toEqual([check]);
    const [, failure] = failuresOf(report)[0];
    expect(failure.setting.parameters).toEqual(SMALLEST[name] ?? {});
    expect(failure.sentence).toBe(
      `Expected ${failure.expected}, but received ${failure.received}. ${failure.remedy}`,
    );
    if (INVISIBLE.includes(check)) return;
    const { pixels, width, height } = failure.picture!;
    expect(pixels).toHaveLength(width * height * 4);
    expect(new Set(pixels).size).toBeGreaterThan(2);
  });
});
