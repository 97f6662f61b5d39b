import { defineEffect } from 'tenter';
import { prepareRipple, ripple, turnsFor } from './ripple.ts';

/** Its sketch draws fewer numbers for its ripples, so that the patches below them, of the same stream, are others. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { box, quality, random } = setting;
    const model = prepareRipple(setting);
    const stream = random('coat');
    if (quality === 'sketch') stream.next();
    const patches = [28, 36].map(
      (mm) => [turnsFor(box.width, 6 / mm), turnsFor(box.height, 6 / mm), stream.next()] as const,
    );
    return { ...model, waves: [...model.waves, ...model.waves, ...patches] };
  },
});
