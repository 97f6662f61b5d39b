import { API_VERSION, defineEffect } from 'tenter';
import { paintPaper } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { makePaper } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/** The tooth of paper, for the host to light, and the paint that has settled in it. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'paper-tooth',
  version: '3.0.0',
  summary:
    'The tooth of watercolour or etching paper, raised under the light, with paint settled in its hollows.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  retired: {
    light:
      'The light is the recipe\'s now: "light": { "direction": 218 } beside its steps, or --light direction=218.',
    rake: 'The light is the recipe\'s now: "light": { "elevation": 22 } beside its steps, or --light elevation=22.',
  },
  planes: ['relief', 'shade', 'load'],
  planesFor: ({ granulation }) => (granulation > 0 ? ['relief', 'shade', 'load'] : ['relief', 'shade']),
  prepare: makePaper,
  paint: paintPaper,
});
