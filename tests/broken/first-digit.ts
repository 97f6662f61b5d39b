import { defineEffect, text } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Reads the first digit of each depth alone, though its pattern takes two. */
export default defineEffect({
  apiVersion: 2,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    depths: text({
      ...{ pattern: '[AB][1-9][0-9]?( [AB][1-9][0-9]?){0,7}', longest: 31, default: 'A8 B4' },
      ...{ say: 'depths such as A8 B12', help: 'How deep the ground is, by turns up and down.' },
    }),
  },
  planes: ['shade'],
  prepare(setting) {
    const depths = setting.parameters.depths.split(' ');
    const sum = depths.reduce((total, word, k) => {
      const sign = word[0] === 'A' ? 1 : -1;
      return total + (sign * Number(word[1])) / (50 + 7 * k);
    }, 0);
    return { ...prepareRipple(setting), depth: setting.parameters.depth + 0.05 * Math.tanh(sum) };
  },
  paint: paintRipple,
});
