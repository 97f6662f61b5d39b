import { API_VERSION, defineEffect } from 'tenter';
import { paintSilk } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { weaveSilk } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/** Raw silk: a hair-fine warp over a thick and thin weft with slubs. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'raw-silk',
  version: '2.0.0',
  summary: 'Raw silk: fine glossy ribs across the cloth, thick and thin, with long soft slubs.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['shade', 'tint'],
  lightFrom: 'light',
  blend: 'multiply',
  planesFor: ({ shot }) => (shot > 0 ? ['shade', 'tint'] : ['shade']),
  prepare: weaveSilk,
  paint: paintSilk,
});
