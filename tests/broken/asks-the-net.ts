import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Asks over the network how high its waves are, and does without where there is none. */
export default defineEffect({
  ...ripple,
  async prepare(setting) {
    const answer = await fetch('data:text/plain,1').catch(() => undefined);
    const model = prepareRipple(setting);
    return { ...model, height: answer ? model.height * Number(await answer.text()) : model.height };
  },
});
