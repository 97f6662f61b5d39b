import type { Parameter, ParameterValue } from '../../parameter.ts';
import { isSameValue, writtenValue } from '../../value.ts';
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
    refuseIdle(bench, all);
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

/**
 * One preset may say nothing, and give the defaults a name; what it says must not come to the same.
 *
 * @throws Failed where a preset is what the defaults are, or another preset.
 */
function refuseIdle(bench: Bench, all: readonly Preset[]): void {
  for (const [index, preset] of all.entries()) {
    const twin = all.slice(0, index).find((other) => isSame(bench, preset, other));
    const isIdle =
      Object.keys(preset.parameters).length > 0 && isSame(bench, preset, { name: '', parameters: {} });
    if (!twin && !isIdle) continue;
    throw new Failed(
      { ...HOME, parameters: preset.parameters },
      {
        expected: `preset ${preset.name} to change what is painted`,
        received: twin
          ? `the values of preset ${twin.name}`
          : 'the values that all parameters have by default',
        remedy:
          'Give it values of its own, or take it out: whoever chooses it would see no change. Only a name for the defaults themselves has {} for its parameters.',
      },
    );
  }
}

function isSame({ effect }: Bench, one: Preset, other: Preset): boolean {
  const blendOf = ({ blend = effect.blend ?? 'normal' }: Preset) => blend;
  if (blendOf(one) !== blendOf(other) || (one.opacity ?? 1) !== (other.opacity ?? 1)) return false;
  return Object.entries<Parameter>(effect.parameters).every(([name, parameter]) => {
    const [value, beside] = [one, other].map(({ parameters }) => parameters[name] ?? parameter.default);
    return isSameValue(written(parameter, value), written(parameter, beside));
  });
}

/** Digits of colours may be written in either case. */
function written({ kind }: Parameter, value: ParameterValue): ParameterValue {
  return kind === 'colour' || kind === 'colours' ? writtenValue(value).toLowerCase() : value;
}
