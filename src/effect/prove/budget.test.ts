import { expect, it } from 'vitest';
import ripple from '../../../tests/broken/ripple.ts';
import { openBench } from './bench.ts';
import { openBudget } from './budget.ts';
import { parameters } from './checks/parameters.ts';

it('is over when its seconds have passed by the clock, and only in a quick proof', () => {
  let ms = 0;
  const now = () => ms;
  const [quick, whole, untimed] = [{ now, quick: true }, { now }, { quick: true }].map((how) =>
    openBudget(how, { quick: 2 }),
  );
  ms = 2001;
  expect([quick, whole, untimed].map((budget) => budget.isOver())).toEqual([true, false, false]);
});

it('leaves settings and claims out, and says how many', async () => {
  // Every look at this clock takes a second.
  let ms = 0;
  const slow = await parameters.run(openBench(ripple, { quick: true, now: () => (ms += 1000) }));
  const all = await parameters.run(openBench(ripple, { quick: true, now: () => 0 }));
  const [left, none] = [slow, all].map((verdict) =>
    verdict.status === 'passed' ? verdict.figures : undefined,
  );
  expect(left!['left to a whole proof']).toBeGreaterThan(5);
  expect(none!['left to a whole proof']).toBe(0);
  expect(left!.settings + left!.claims + left!['left to a whole proof']).toBe(none!.settings + none!.claims);
});
