// What is compiled ahead is what its source says: npm run kernels after every change of a NAME.as.ts.
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
// @ts-expect-error a plain script without types
import { KERNELS, makeKernel, moduleOf } from '../.build/kernels.mjs';

it('there are some', () => {
  expect(KERNELS).toContain('plugins/linen-weave/row.as.ts');
});

it.each<string>(KERNELS)(
  '%s is the source of the bytes beside it',
  async (source: string) => {
    expect(readFileSync(moduleOf(source), 'utf8')).toBe(await makeKernel(source));
  },
  60_000,
);
