import { defineEffect } from 'tenter';
import { FINISHED, SKETCH } from './fineness.ts';
import { levelLoad } from './level.ts';
import { floodPaper, type WetModel } from './model.ts';
import { paintWet } from './paint.ts';
import { hasSecond, parameters } from './parameters.ts';

/** A wash flooded again while it is wet: soft merges, back-runs, runs and spatter. */
export default defineEffect({
  apiVersion: 1,
  name: 'wet-into-wet',
  version: '2.0.0',
  summary:
    'Wet into wet: water and paint let into a wet wash, with cloudy merges, crinkled back-runs and runs.',
  parameters,
  planes: ['load', 'shift', 'tint', 'bleed'],
  blend: 'multiply',
  planesFor: (values) => [
    'load',
    ...(values.move > 0 ? (['shift', 'bleed'] as const) : []),
    ...(hasSecond(values) ? (['tint'] as const) : []),
  ],
  prepare({ parameters: values, box, random, report, progress, quality }): WetModel {
    const { model, marks } = floodPaper(
      values,
      box,
      random,
      quality === 'sketch' ? SKETCH : FINISHED,
      progress,
    );
    for (const [name, value] of Object.entries(marks)) report({ name, value, unit: 'count' });
    return levelLoad(model, box);
  },
  paint: paintWet,
});
