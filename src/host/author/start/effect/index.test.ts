import { readPresets } from 'tenter/host';
import { expectProven } from 'tenter/prove';
import { it } from 'vitest';
import effect from './index.ts';

it('petal-fall keeps its contract, in each of its presets', async ({ task }) => {
  const presets = await readPresets(task.file.filepath.replace('index.test.ts', 'presets'), effect);
  await expectProven(effect, { presets });
}, 300_000);
