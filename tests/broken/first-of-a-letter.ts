import { defineEffect, text } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Finds each depth by its letter, and so of two with one letter the last alone. */
export default defineEffect({
  apiVersion: 2,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    depths: text({
      ...{ pattern: '[A-D][1-9][0-9]?( [A-D][1-9][0-9]?){0,7}', longest: 31, default: 'A8 B4 C20 D12' },
      ...{ say: 'depths such as A8 B12', help: 'How deep the ground is, each by its letter.' },
    }),
  },
  planes: ['shade'],
  prepare(setting) {
    const words = setting.parameters.depths.split(' ');
    const byLetter = new Map(words.map((word) => [word[0], Number(word.slice(1))]));
    const sum = words.reduce((all, [letter], k) => all + byLetter.get(letter)! / (k + 2), 0);
    return { ...prepareRipple(setting), depth: setting.parameters.depth + 0.0005 * sum };
  },
  paint: paintRipple,
});
