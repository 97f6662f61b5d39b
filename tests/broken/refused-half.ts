import { defineEffect, Fault } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Offers a ground of up to 0.4, and takes none above 0.2. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { depth } = setting.parameters;
    if (depth >= 0.205)
      throw new Fault({ kind: 'usage', expected: '0.2 at most', subject: 'depth', received: `${depth}` });
    return prepareRipple(setting);
  },
});
