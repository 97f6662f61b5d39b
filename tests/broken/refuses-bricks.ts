import { defineEffect, Fault, formatLayout } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Refuses every brick, as though the user had made a mistake. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { layout } = setting.box;
    if (layout.kind === 'brick') {
      throw new Fault({
        kind: 'usage',
        expected: 'a straight layout or a drop',
        subject: 'layout',
        received: formatLayout(layout),
        remedy: 'Turn the tile.',
      });
    }
    return prepareRipple(setting);
  },
});
