import { describe, expect, it } from 'vitest';
import type { Check } from './check.ts';
import { CHECKS } from './checks/index.ts';
import { proveBy } from './prove.ts';
import type { CheckName, Verdict } from './report.ts';

const EFFECT = { name: 'none', version: '1.0.0' };
const PASSED: Verdict = { status: 'passed' };
const FAILED = { status: 'failed', failure: {} } as Verdict;

/** A stand-in for checks: each takes some turns of the loop, the later ones fewer, so that they overtake. */
async function standIn({ name }: Check): Promise<Verdict> {
  const turns = CHECKS.length - CHECKS.findIndex((check) => check.name === name);
  for (let turn = 0; turn < turns; turn++) await new Promise(setImmediate);
  return PASSED;
}

describe('checks by two hands', () => {
  it('are under way two at a time, never more, and told in their order', async () => {
    let [underWay, most] = [0, 0];
    const told: CheckName[] = [];
    const report = await proveBy(
      EFFECT,
      { onResult: ({ check }) => told.push(check) },
      async (check) => {
        most = Math.max(most, ++underWay);
        const verdict = await standIn(check);
        underWay--;
        return verdict;
      },
      2,
    );
    expect(most).toBe(2);
    expect(told).toEqual(CHECKS.map(({ name }) => name));
    expect(report).toMatchObject({ proven: true, notReached: [] });
  });

  it('no hand has two checks at once', async () => {
    const busy = [false, false];
    await proveBy(
      EFFECT,
      {},
      async (check, hand) => {
        expect(busy[hand]).toBe(false);
        busy[hand] = true;
        const verdict = await standIn(check);
        busy[hand] = false;
        return verdict;
      },
      2,
    );
  });

  it.each([1, 2])('what it costs is known before anything that takes long, by %d', async (hands) => {
    const begun: CheckName[] = [];
    const note = async ({ name }: Check) => {
      begun.push(name);
      return PASSED;
    };
    await proveBy(EFFECT, {}, note, hands);
    const long: CheckName[] = ['bands', 'periodic', 'seam', 'resolution', 'parameters', 'sketch'];
    expect(begun.indexOf('cost')).toBeLessThan(Math.min(...long.map((name) => begun.indexOf(name))));
  });

  it('what was begun before its ground was lost says nothing either', async () => {
    // "periodic" is begun while "state" is still at it, and ends first.
    const checks: CheckName[] = ['state', 'periodic'];
    const begun: CheckName[] = [];
    const report = await proveBy(
      EFFECT,
      { checks },
      async (check) => {
        begun.push(check.name);
        await standIn(check);
        return check.name === 'state' ? FAILED : PASSED;
      },
      2,
    );
    expect(begun).toEqual(checks);
    expect(report.results.map(({ status }) => status)).toEqual(['failed', 'not applicable']);
  });

  it.each([
    ['lost', FAILED],
    ['kept', PASSED],
  ])(
    'a fault of ours before the ground is known counts only once it is kept: %s',
    async (ground, verdict) => {
      const proof = proveBy(
        EFFECT,
        { checks: ['state', 'periodic'] },
        async (check) => {
          if (check.name === 'periodic') throw new Error('a fault of ours');
          await standIn(check);
          return verdict;
        },
        2,
      );
      if (ground === 'kept') await expect(proof).rejects.toThrow('a fault of ours');
      else expect((await proof).results.map(({ status }) => status)).toEqual(['failed', 'not applicable']);
    },
  );

  it('a fault of ours in one ends both', async () => {
    const begun: CheckName[] = [];
    const proof = proveBy(
      EFFECT,
      {},
      async (check) => {
        begun.push(check.name);
        if (check.name === 'finite') throw new Error('a fault of ours');
        return standIn(check);
      },
      2,
    );
    await expect(proof).rejects.toThrow('a fault of ours');
    expect(begun.length).toBeLessThan(CHECKS.length);
  });
});
