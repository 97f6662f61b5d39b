import { defineEffect, Fault } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Takes no box beyond 40 cm. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { width } = setting.box;
    if (width * setting.box.height > 400 ** 2) {
      throw new Fault({
        kind: 'usage',
        expected: 'a box of 400 x 400 mm at most',
        subject: 'size',
        received: `${width} mm`,
      });
    }
    return prepareRipple(setting);
  },
});
