import { API_VERSION, defineEffect } from 'tenter';
import { paintSalt } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareSalt } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/** Salt thrown on a wet wash. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'salt-bloom',
  version: '2.0.0',
  summary: 'Salt thrown on a wet wash: pale feathered stars, frost and flowers, with paint gathered between.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['load', 'shift', 'bleed'],
  planesFor: ({ run }) => (run > 0 ? ['load', 'shift', 'bleed'] : ['load']),
  prepare: prepareSalt,
  paint: paintSalt,
});
