import { type AnyEffect, numbers, type Setting } from 'tenter';
import { prepareRipple, type Ripple, ripple } from './ripple.ts';

/** Of eight heights that may be given it uses the first four. */
const shortList: AnyEffect = {
  ...(ripple as AnyEffect),
  apiVersion: 2,
  parameters: {
    ...ripple.parameters,
    heights: numbers({
      ...{ unit: 'ratio', min: 0.1, max: 1, least: 1, most: 8, default: [1, 0.3, 0.7] },
      help: 'How high each wave is beside the others, by turns.',
    }),
  },
  prepare(setting: Setting): Ripple {
    const { heights } = setting.parameters as unknown as { heights: readonly number[] };
    const used = heights.slice(0, 4);
    const model = prepareRipple(setting as never);
    return { ...model, height: (model.height * used.reduce((sum, height) => sum + height, 0)) / used.length };
  },
};
export default shortList;
