import type { Parameter, ParameterValue } from '../../parameter.ts';
import { isSameValue, writtenValue } from '../../value.ts';
import type { Bench, Preset } from '../bench.ts';
import { type Check, GROUND } from '../check.ts';
import { differenceOf } from '../compare.ts';
import { Failed, Refused } from '../failed.ts';
import { inFarView, tryResolution } from '../far-view.ts';
import { showLayer, sideBySide } from '../picture.ts';
import { HOME } from '../trial.ts';
import { tryAll } from '../try-all.ts';
import { unlessRefused } from '../unless-refused.ts';
import { SKETCHED } from '../vary.ts';

/** In small boxes besides. */
const LAYOUTS = ['straight', 'brick:1/3'];
/** Two repeats across, so that something of most textures is seen. */
const VIEW = { x: -20, y: -20, width: 520, height: 400 };

export const presets: Check = {
  name: 'presets',
  promise: 'Every preset makes a texture that repeats, is finite and looks the same from afar.',
  needs: GROUND,
  async run(bench) {
    const all = bench.presets ?? [];
    if (all.length === 0) return { status: 'not applicable', note: 'it has none' };
    for (const preset of all) await tryPreset(bench, preset);
    refuseIdle(bench, all);
    await refuseUnseen(bench, all);
    return { status: 'passed', figures: { presets: all.length } };
  },
};

async function tryPreset(bench: Bench, { name, parameters }: Preset): Promise<void> {
  const trial = { ...HOME, parameters };
  try {
    const sample = await bench.shared(trial);
    tryAll(bench, sample);
    for (const layout of LAYOUTS) {
      const small = await unlessRefused(() => bench.shared({ ...SKETCHED, layout, parameters }));
      if (small) tryAll(bench, small);
    }
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

/**
 * Values that differ from the defaults but paint nothing else: a colour without the switch that it hangs on.
 *
 * @throws Failed where a preset of the same blending paints what the defaults paint.
 */
async function refuseUnseen(bench: Bench, all: readonly Preset[]): Promise<void> {
  const blank: Preset = { name: '', parameters: {} };
  const plain = bench.paint(await bench.shared(HOME), VIEW);
  for (const preset of all) {
    if (Object.keys(preset.parameters).length === 0 || isLaidOtherwise(bench, preset, blank)) continue;
    const trial = { ...HOME, parameters: preset.parameters };
    const layer = bench.paint(await bench.shared(trial), VIEW);
    const isBlind = Object.keys(plain).every((name) => name in layer) && !differenceOf(plain, layer);
    if (!isBlind) continue;
    throw new Failed(trial, {
      expected: `preset ${preset.name} to change what is painted`,
      received: 'the very texture that is painted by default',
      remedy:
        'None of its values shows: set the switch, the option or the amount that they hang on too, or take the preset out.',
      picture: sideBySide([showLayer(plain), showLayer(layer)]),
    });
  }
}

function isLaidOtherwise({ effect }: Bench, one: Preset, other: Preset): boolean {
  const blendOf = ({ blend = effect.blend ?? 'normal' }: Preset) => blend;
  return blendOf(one) !== blendOf(other) || (one.opacity ?? 1) !== (other.opacity ?? 1);
}

function isSame(bench: Bench, one: Preset, other: Preset): boolean {
  if (isLaidOtherwise(bench, one, other)) return false;
  return Object.entries<Parameter>(bench.effect.parameters).every(([name, parameter]) => {
    const [value, beside] = [one, other].map(({ parameters }) => parameters[name] ?? parameter.default);
    return isSameValue(written(parameter, value), written(parameter, beside));
  });
}

/** Digits of colours may be written in either case. */
function written({ kind }: Parameter, value: ParameterValue): ParameterValue {
  return kind === 'colour' || kind === 'colours' ? writtenValue(value).toLowerCase() : value;
}
