import { type AnyEffect, numeric, toggle } from 'tenter';
import { PARAMETERS, prepareRipple, type RippleSetting, ripple } from './ripple.ts';

/** The preset sets how much is bleached, and not the switch without which nothing is. */
export const presets = [{ name: 'rosewood', parameters: { bleach: 0.9 } }];

const bleached: AnyEffect = {
  ...(ripple as AnyEffect),
  parameters: {
    ...PARAMETERS,
    bleached: toggle({ default: false, help: 'Whether it is bleached.' }),
    bleach: numeric({
      unit: 'ratio',
      min: 0.1,
      max: 1,
      default: 0.5,
      help: 'How much, where it is bleached.',
    }),
  },
  prepare(setting) {
    const { bleached, bleach } = setting.parameters as { bleached: boolean; bleach: number };
    const model = prepareRipple(setting as unknown as RippleSetting);
    return { ...model, depth: bleached ? model.depth * (1 - bleach / 2) : model.depth };
  },
};
export default bleached;
