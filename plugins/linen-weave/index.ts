import { API_VERSION, defineEffect } from 'tenter';
import { paintLinen } from './paint.ts';
import { linenPlanes, PARAMETERS } from './parameters.ts';
import { prepareLinen } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

/** Linen: a ground of spun flax yarns woven over and under, lit from the side. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'linen-weave',
  version: '1.1.0',
  summary: 'Linen cloth: uneven flax yarns in plain weave, twill, basket or satin, lit from the side.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['shade', 'tint', 'load', 'shift'],
  lightFrom: 'light',
  blend: 'multiply',
  planesFor: linenPlanes,
  prepare: prepareLinen,
  paint: paintLinen,
});
