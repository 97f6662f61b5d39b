import { defineEffect, parseHex } from 'tenter';
import { levelLoad, meanLoad } from './level.ts';
import { type LiftModel, type LiftSpec, liftWash } from './model.ts';
import { paintLift } from './paint.ts';
import { type LiftValues, parameters } from './parameters.ts';
import { type ScatterSpec, scatterDrops } from './scatter.ts';
import { layGround } from './wetness.ts';

/** How much coarser a sketch is worked out. */
const SKETCH = 2.4;

/**
 * Alcohol lift: spirit dripped and spattered into a wet wash drives the paint outward.
 * The technique itself: spirit burns and its vapour needs air; see NOTES.md.
 */
export default defineEffect({
  apiVersion: 1,
  name: 'alcohol-lift',
  version: '1.0.0',
  summary:
    'Spirit dripped and spattered into a wet wash: pale openings pushed clear of paint, from pin pricks to blooms.',
  parameters,
  planes: ['load', 'shift', 'tint'],
  blend: 'multiply',
  planesFor: ({ carry, inkAmount }) => [
    'load',
    ...(carry > 0 ? (['shift'] as const) : []),
    ...(inkAmount > 0 ? (['tint'] as const) : []),
  ],
  prepare({ parameters: values, box, random, report, progress, quality }): LiftModel {
    const { wetness, gathering } = values;
    const ground = layGround(box, wetness / 100, gathering / 100, random('ground'));
    const drops = scatterDrops(box, ground, scatterOf(values), random);
    progress(0.1);
    report({ name: 'drops and specks', value: drops.length, unit: 'count' });
    const lifted = liftWash(box, drops, specOf(values, quality), random, progress);
    const mean = meanLoad(lifted);
    report({ name: 'paint levelled by', value: Math.round(1e4 * (1 / mean - 1)) / 100, unit: 'percent' });
    return { ...lifted, level: lifted.level / mean };
  },
  paint: paintLift,
});

export { levelLoad };

function scatterOf(values: LiftValues): ScatterSpec {
  return {
    drops: values.drops / 1e4,
    spatter: values.spatter / 1e4,
    size: values.size,
    variety: values.variety / 100,
    wetness: values.wetness / 100,
    lift: values.lift / 100,
    seconds: values.seconds / 100,
    run: values.run,
    tilt: (values.tilt * Math.PI) / 180,
  };
}

function specOf(values: LiftValues, quality: 'finished' | 'sketch'): LiftSpec {
  const amount = values.inkAmount / 100;
  return {
    rim: values.rim / 100,
    tooth: values.tooth / 100,
    wash: values.wash / 100,
    carry: values.carry / 100,
    ink: amount > 0 ? { colour: parseHex(values.ink) as [number, number, number], amount } : undefined,
    coarseness: quality === 'sketch' ? SKETCH : 1,
  };
}
