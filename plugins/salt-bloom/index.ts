import { API_VERSION, defineEffect } from 'tenter';
import { paintSalt } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareSalt } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/** Salt thrown on a wet wash. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'salt-bloom',
  version: '4.0.0',
  summary: 'Salt thrown on a wet wash: pale feathered stars, frost and flowers, with paint gathered between.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['load', 'parting', 'shift', 'bleed'],
  planesFor: ({ run, parting }) => [
    'load',
    ...(parting > 0 ? (['parting'] as const) : []),
    ...(run > 0 ? (['shift', 'bleed'] as const) : []),
  ],
  reads: ['artwork'],
  prepare: prepareSalt,
  paint: paintSalt,
});
