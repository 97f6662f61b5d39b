import { API_VERSION, defineEffect } from 'tenter';
import { paintLift } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareLift } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/**
 * Alcohol lift: spirit dripped and spattered into a wet wash drives the paint outward.
 *
 * Whoever does it by hand: isopropyl and ethyl alcohol catch fire and their vapour needs air. No flame, an
 * open window, gloves; follow the maker's sheet and local rules.
 */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'alcohol-lift',
  version: '4.0.0',
  summary: 'Spirit dripped and spattered into a wet wash: pale openings, from pin pricks to blooms.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['load', 'parting', 'shift', 'bleed', 'tint'],
  blend: 'multiply',
  planesFor: ({ carry, inkAmount, parting }) => [
    'load',
    ...(parting > 0 ? (['parting'] as const) : []),
    ...(carry > 0 ? (['shift', 'bleed'] as const) : []),
    ...(inkAmount > 0 ? (['tint'] as const) : []),
  ],
  prepare: prepareLift,
  paint: paintLift,
});
