import { API_VERSION, defineEffect } from 'tenter';
import { paintSponge } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareSponge } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

export default defineEffect({
  apiVersion: API_VERSION,
  name: 'sponged',
  version: '1.0.0',
  summary: 'Dabbed with a natural sea sponge: colour laid on in lacy, overlapping marks, or paint taken off.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['tint', 'load'],
  planesFor: ({ action }) => (action === 'on' ? ['tint'] : ['load']),
  prepare: prepareSponge,
  paint: paintSponge,
});
