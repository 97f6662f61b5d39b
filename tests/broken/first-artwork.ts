import { defineEffect } from 'tenter';
import { type Dimmed, dimmed, prepareDimmed } from './dimmed.ts';

const seen = new Map<string, Dimmed>();

/** Keeps what it read by the box alone: the next artwork of that size gets the field of the first one. */
export default defineEffect({
  ...dimmed,
  prepare(setting) {
    const key = JSON.stringify(setting.box);
    const model = seen.get(key) ?? prepareDimmed(setting);
    seen.set(key, model);
    return model;
  },
});
