import { defineEffect } from 'tenter';
import { paintCheck } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareCheck } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/** Yarn-dyed cloth: stripes and checks that come from the order of the threads. */
export default defineEffect({
  apiVersion: 2,
  name: 'woven-check',
  version: '1.0.0',
  summary:
    'Yarn-dyed cloth: stripes, checks and twill checks from an order of threads, mixed thread by thread.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  lightFrom: 'light',
  planes: ['shade', 'tint'],
  blend: 'multiply',
  prepare: prepareCheck,
  paint: paintCheck,
});
