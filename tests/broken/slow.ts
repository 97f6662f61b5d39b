import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const SILENT_MS = 400;

/** Every prepare takes a while, and says nothing of it. */
export default defineEffect({
  ...ripple,
  async prepare(setting) {
    await new Promise((resolve) => setTimeout(resolve, SILENT_MS));
    return prepareRipple(setting);
  },
});
