import { API_VERSION, defineEffect } from 'tenter';
import { paintWood } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareWood } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

export default defineEffect({
  apiVersion: API_VERSION,
  name: 'wood-grain',
  version: '2.0.0',
  summary:
    'Boards or veneer of pine, oak, ash or walnut with rings, pores, rays and knots, or a painted imitation.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['tint', 'shade'],
  planesFor: ({ body, relief }) => {
    if (body === 'relief') return ['shade'];
    return relief > 0 ? ['tint', 'shade'] : ['tint'];
  },
  prepare: prepareWood,
  paint: paintWood,
});
