import { defineEffect } from 'tenter';
import type { LiftModel } from './model.ts';
import { paintLift } from './paint.ts';
import { parameters } from './parameters.ts';
import { prepareLift } from './prepare.ts';

/** How much coarser the cells of a sketch are. */
const SKETCH = 2.4;

/**
 * Alcohol lift: spirit dripped and spattered into a wet wash drives the paint outward.
 *
 * Whoever does it by hand: isopropyl and ethyl alcohol catch fire and their vapour needs air. No flame, an
 * open window, gloves; follow the maker's sheet and local rules.
 */
export default defineEffect({
  apiVersion: 1,
  name: 'alcohol-lift',
  version: '2.0.0',
  summary: 'Spirit dripped and spattered into a wet wash: pale openings, from pin pricks to blooms.',
  parameters,
  planes: ['load', 'shift', 'bleed', 'tint'],
  blend: 'multiply',
  planesFor: ({ carry, inkAmount }) => [
    'load',
    ...(carry > 0 ? (['shift', 'bleed'] as const) : []),
    ...(inkAmount > 0 ? (['tint'] as const) : []),
  ],
  prepare: (setting): LiftModel => prepareLift(setting, setting.quality === 'sketch' ? SKETCH : 1),
  paint: paintLift,
});
