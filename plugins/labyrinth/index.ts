import { defineEffect } from 'tenter';
import { paintLabyrinth } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareLabyrinth } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

export default defineEffect({
  apiVersion: 1,
  name: 'labyrinth',
  version: '1.0.0',
  summary: 'Winding lines, worms and spots, as a reaction left them: resisted, dyed or raised.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['load', 'shade'],
  planesFor: ({ relief }) => (relief > 0 ? ['load', 'shade'] : ['load']),
  prepare: prepareLabyrinth,
  paint: paintLabyrinth,
});
