import { defineEffect } from 'tenter';
import { paintTerrazzo } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareTerrazzo } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

export default defineEffect({
  apiVersion: 1,
  name: 'terrazzo',
  version: '1.0.0',
  summary: 'Terrazzo: angular chips of stone of many sizes in a ground floor, with fine grit between.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['tint'],
  prepare: prepareTerrazzo,
  paint: paintTerrazzo,
});
