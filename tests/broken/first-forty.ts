import { type AnyEffect, type Setting, text } from 'tenter';
import { prepareRipple, type Ripple, ripple } from './ripple.ts';

/** Takes every number in a text that is above forty for forty. */
const firstForty: AnyEffect = {
  ...(ripple as AnyEffect),
  apiVersion: 2,
  parameters: {
    ...ripple.parameters,
    depths: text({
      ...{ pattern: '[AB][1-9][0-9]?( [AB][1-9][0-9]?){0,5}', longest: 24, default: 'A12 B34' },
      ...{ say: 'letters with numbers from 1 to 99', help: 'How far each wave darkens.' },
    }),
  },
  prepare(setting: Setting): Ripple {
    const { depths } = setting.parameters as unknown as { depths: string };
    const read = depths
      .split(' ')
      .map((entry) => Math.min(40, Number(entry.slice(1))) + (entry.startsWith('A') ? 0 : 200));
    const model = prepareRipple(setting as never);
    const sum = read.reduce((total, depth, index) => total + depth * (1 + 0.01 * index), 0);
    return { ...model, depth: model.depth * (1 + sum / 1e5), height: 0.6 * model.height };
  },
};
export default firstForty;
