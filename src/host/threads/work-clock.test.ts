import { expect, it } from 'vitest';
import { workClock } from './work-clock.ts';

it('goes by the processor, and never faster than time', () => {
  let [ms, used] = [0, 0];
  const work = workClock(
    () => ms,
    () => ({ user: used * 500, system: used * 500 }),
  );
  // Held up by others: eight tenths of a second went to them.
  [ms, used] = [1000, 200];
  expect(work()).toBe(200);
  // Another thread of the same process worked beside it.
  [ms, used] = [1100, 400];
  expect(work()).toBe(300);
});
