import { API_VERSION, defineEffect } from 'tenter';
import { paintWorn } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareWorn } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

export default defineEffect({
  apiVersion: API_VERSION,
  name: 'worn-print',
  version: '1.0.0',
  summary:
    'A print that was used: rubbed, washed out, broken along folds and creases, cracked and scratched, on cloth or paper.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['load'],
  prepare: prepareWorn,
  paint: paintWorn,
});
