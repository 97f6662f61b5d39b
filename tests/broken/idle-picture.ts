import { defineEffect } from 'tenter';
import { dyed, prepareDyed } from './dyed.ts';

/** Takes a picture and does nothing with it. */
export default defineEffect({ ...dyed, prepare: (setting) => ({ ...prepareDyed(setting), tone: 0.8 }) });
