import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Its ground grows darker with the height of the box, beyond 480 mm. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    const excess = Math.max(0, setting.box.height - 480) / 480;
    return { ...model, depth: model.depth * (1 + excess) };
  },
});
