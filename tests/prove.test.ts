import { expectProven, proveEffect } from 'tenter/prove';
import { describe, expect, it } from 'vitest';
import ripple from './broken/ripple.ts';
import wrongDrop from './broken/wrong-drop.ts';

describe('inside a test of an author', () => {
  it('says nothing of an effect that keeps the contract', async () => {
    await expect(expectProven(ripple, { quick: true })).resolves.toMatchObject({ proven: true });
  });
  it('lists what is not kept, and with which setting', async () => {
    await expect(expectProven(wrongDrop, { quick: true })).rejects.toThrow(
      /ripple 1\.0\.0 does not keep its contract:\n {2}periodic: Expected the same floats.*\n {4}with all parameters at their defaults; seed prove; drop:1\/2/,
    );
  });
  it('whatever paint throws is a fault of the effect, whichever check comes first', async () => {
    const paint = () => {
      throw 'some text';
    };
    const { results } = await proveEffect({ ...ripple, paint }, { quick: true, checks: ['planes'] });
    expect(results).toMatchObject([
      { status: 'failed', failure: { received: 'a thrown string: some text' } },
    ]);
  });
});
