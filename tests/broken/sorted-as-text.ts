import { defineEffect, numbers } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Sorts its levels as texts, 12 before 5, and goes up them until one is too high. */
export default defineEffect({
  apiVersion: 2,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    levels: numbers({
      ...{ unit: 'mm', min: 2, max: 20, least: 1, most: 3, default: [3, 5, 7] },
      help: 'Levels at which the ground grows darker.',
    }),
  },
  planes: ['shade'],
  prepare(setting) {
    const levels = [...setting.parameters.levels].sort();
    let [dark, reached] = [0, 0];
    while (reached < levels.length && levels[reached] < 10) dark += 10 - levels[reached++];
    return { ...prepareRipple(setting), depth: setting.parameters.depth + 0.004 * dark };
  },
  paint: paintRipple,
});
