import { defineEffect, text } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** It remembers where it stood. */
const TURNED = /!$/g;

/** Looks for a mark at the end of its text, and misses it every other time. */
export default defineEffect({
  apiVersion: 2,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    depths: text({
      ...{ pattern: '[1-9][0-9]?(,[1-9][0-9]?){0,5}!?', longest: 18, default: '8,4' },
      ...{ say: 'depths such as 8,12, and ! to turn them', help: 'How deep the ground is.' },
    }),
  },
  planes: ['shade'],
  prepare(setting) {
    const { depths, depth } = setting.parameters;
    const sign = TURNED.test(depths) ? -1 : 1;
    const sum = depths
      .replace('!', '')
      .split(',')
      .reduce((all, word, k) => all + Number(word) / (60 + 7 * k), 0);
    return { ...prepareRipple(setting), depth: depth + 0.05 * sign * Math.tanh(sum / 4) };
  },
  paint: paintRipple,
});
