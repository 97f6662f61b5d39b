import type { Setting } from 'tenter';
import { FINISHED, SKETCH } from './fineness.ts';
import { floodPaper } from './flood.ts';
import { levelLoad } from './level.ts';
import type { WetModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';

/** Floods the paper, lets it dry, and brings what was painted to a mean of 1. */
export function prepareWet(setting: Setting<typeof PARAMETERS>): WetModel {
  const { parameters: values, box, random, report, progress, quality } = setting;
  const fineness = quality === 'sketch' ? SKETCH : FINISHED;
  const { model, marks } = floodPaper(values, box, random, fineness, progress);
  for (const [name, value] of Object.entries(marks)) report({ name, value, unit: 'count' });
  return levelLoad(model, box);
}
