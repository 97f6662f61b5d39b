import { API_VERSION, defineEffect } from 'tenter';
import { paintBrush } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareBrush } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

export default defineEffect({
  apiVersion: API_VERSION,
  name: 'dry-brush',
  version: '2.0.0',
  summary: 'Painted with a nearly dry bristle brush: streaked strokes that break on the paper and run out.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['load'],
  reads: ['relief'],
  prepare: prepareBrush,
  paint: paintBrush,
});
