import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Has no more than twelve waves to a box: they grow with it. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    const most = (turns: number) => Math.max(-12, Math.min(12, turns));
    return {
      ...model,
      waves: model.waves.map(([across, down, phase]) => [most(across), most(down), phase] as const),
    };
  },
});
