import { expectProven } from 'tenter/prove';
import { it } from 'vitest';
import effect from './index.ts';

it('petal-fall keeps its contract', async () => {
  await expectProven(effect);
}, 300_000);
