import { type AnyEffect, numbers, type Setting } from 'tenter';
import { prepareRipple, type Ripple, ripple } from './ripple.ts';

const made = new Map<string, Ripple>();

/** Finds its waves again by a key in which nothing stands between the numbers of a list. */
const joinedKey: AnyEffect = {
  ...(ripple as AnyEffect),
  apiVersion: 2,
  parameters: {
    ...ripple.parameters,
    depths: numbers({
      ...{ unit: 'mm', min: 1, max: 30, least: 2, most: 6, default: [6, 9] },
      help: 'How deep each wave is beside the others, by turns.',
    }),
  },
  prepare(setting: Setting): Ripple {
    const { depths, ...others } = setting.parameters as unknown as { depths: readonly number[] };
    const { width, height, layout } = setting.box;
    const key = JSON.stringify([setting.seed, width, height, layout, others]) + depths.join('');
    const model = made.get(key) ?? prepareRipple(setting as never);
    const share = depths.reduce((sum, depth, k) => sum + depth * (k + 1), 0) / 1000;
    const found = made.get(key) ?? { ...model, height: model.height * (1 - share) };
    made.set(key, found);
    return found;
  },
};
export default joinedKey;
