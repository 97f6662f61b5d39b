import { API_VERSION, defineEffect } from 'tenter';
import { paintSwatch } from './paint.ts';
import { PARAMETERS } from './parameters.ts';
import { prepareSwatch } from './prepare.ts';
import { SENTENCES } from './sentences.ts';

export default defineEffect({
  apiVersion: API_VERSION,
  name: 'swatch',
  version: '1.0.0',
  summary:
    'A painted or scanned swatch grown to any size at its true scale, as a wash, in its own colours or as shade.',
  sentences: SENTENCES,
  parameters: PARAMETERS,
  planes: ['load', 'tint', 'shade'],
  planesFor: ({ layAs }) => [layAs === 'wash' ? 'load' : layAs === 'colour' ? 'tint' : 'shade'],
  prepare: prepareSwatch,
  paint: paintSwatch,
});
