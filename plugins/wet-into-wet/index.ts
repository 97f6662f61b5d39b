import { API_VERSION, defineEffect } from 'tenter';
import { paintWet } from './paint.ts';
import { hasSecond, PARAMETERS } from './parameters.ts';
import { prepareWet } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/** A wash flooded again while it is wet: soft merges, back-runs, runs and spatter. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'wet-into-wet',
  version: '4.0.0',
  summary:
    'Wet into wet: water and paint let into a wet wash, with cloudy merges, crinkled back-runs and runs.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['load', 'parting', 'shift', 'tint', 'bleed'],
  blend: 'multiply',
  reads: ['artwork'],
  planesFor: (values) => [
    'load',
    ...(values.parting > 0 ? (['parting'] as const) : []),
    ...(values.move > 0 ? (['shift', 'bleed'] as const) : []),
    ...(hasSecond(values) ? (['tint'] as const) : []),
  ],
  prepare: prepareWet,
  paint: paintWet,
});
