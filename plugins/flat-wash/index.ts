import { API_VERSION, defineEffect } from 'tenter';
import { paintFlatWash } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareFlatWash } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/** A wash of watercolour, laid with a brush. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'flat-wash',
  version: '2.0.0',
  summary:
    'Laid as a wash with a loaded brush: laps, beads and drying lines, grain in the tooth of the paper.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['load', 'parting'],
  planesFor: ({ parting }) => (parting > 0 ? ['load', 'parting'] : ['load']),
  prepare: prepareFlatWash,
  paint: paintFlatWash,
});
