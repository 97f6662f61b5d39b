import { API_VERSION, defineEffect } from 'tenter';
import { paintWax } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareWax } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

export default defineEffect({
  apiVersion: API_VERSION,
  name: 'cracked-wax',
  version: '2.0.0',
  summary: 'Batik: veins of dye, or of bleach, that seeped into the cloth through cracks in brittle wax.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['tint', 'load'],
  blend: 'multiply',
  planesFor: ({ bath }) => (bath === 'dye' ? ['tint'] : ['load']),
  prepare: prepareWax,
  paint: paintWax,
});
