import type { Bench, Preset } from '../bench.ts';
import { type Check, GROUND } from '../check.ts';
import { Failed, Refused } from '../failed.ts';
import { inFarView, tryResolution } from '../far-view.ts';
import { HOME } from '../trial.ts';
import { trySound } from '../try-sound.ts';
import { tryTranslates } from './periodic.ts';

export const presets: Check = {
  name: 'presets',
  promise: 'Every preset makes a texture that repeats, is finite and looks the same from afar.',
  needs: GROUND,
  async run(bench) {
    const all = bench.presets ?? [];
    if (all.length === 0) return { status: 'not applicable', note: 'it has none' };
    for (const preset of all) await tryPreset(bench, preset);
    return { status: 'passed', figures: { presets: all.length } };
  },
};

async function tryPreset(bench: Bench, { name, parameters }: Preset): Promise<void> {
  const trial = { ...HOME, parameters };
  try {
    const sample = await bench.shared(trial);
    trySound(bench, sample);
    tryTranslates(bench, sample, [[1, 0]]);
    if (!bench.quick) tryResolution(bench, await bench.shared(inFarView(trial)));
  } catch (error) {
    if (error instanceof Refused) {
      throw new Failed(trial, {
        expected: `preset ${name} to be taken`,
        received: `a refusal: ${error.message.replace(/\.$/, '')}`,
        remedy: 'Mend the preset.',
      });
    }
    if (!(error instanceof Failed)) throw error;
    const { expected, setting, ...rest } = error.failure;
    throw new Failed(setting, { ...rest, expected: `of preset ${name} ${expected}` });
  }
}
