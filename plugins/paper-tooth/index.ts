import { API_VERSION, defineEffect } from 'tenter';
import { paintPaper } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { makePaper } from './prepare.ts';

/** The tooth of paper under a raking light, and the paint that has settled in it. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'paper-tooth',
  version: '1.0.0',
  summary: 'The tooth of watercolour or etching paper in a raking light, with paint settled in its hollows.',
  parameters: PARAMETERS,
  planes: ['shade', 'load'],
  planesFor: ({ granulation }) => (granulation > 0 ? ['shade', 'load'] : ['shade']),
  prepare: makePaper,
  paint: paintPaper,
});
