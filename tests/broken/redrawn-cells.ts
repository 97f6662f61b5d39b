import { defineEffect } from 'tenter';
import { prepareRipple, ripple, turnsFor } from './ripple.ts';

/** Has the long waves of the finished texture in a sketch, but draws the short ones anew. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { box, quality, random } = setting;
    const model = prepareRipple(setting);
    const stream = random(`short ${quality}`);
    const short = model.waves.map(() => {
      const [across, down] = [stream.between(0.8, 1), stream.between(-0.4, 0.4)];
      return [turnsFor(2.6 * box.width, across), turnsFor(2.6 * box.height, down), stream.next()] as const;
    });
    return { ...model, waves: [...model.waves, ...short] };
  },
});
