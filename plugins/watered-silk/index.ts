import { API_VERSION, defineEffect } from 'tenter';
import { paintWatered } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { pressSilk } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/** Watered silk (moire): ribs that were pressed into each other slightly out of register. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'watered-silk',
  version: '1.0.0',
  summary: 'Watered silk: fine ribs with wandering water marks, light and dark, like the figure of wood.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['shade'],
  lightFrom: 'light',
  prepare: pressSilk,
  paint: paintWatered,
});
