import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Ends its whole thread where the ground is black. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    if (model.depth === 0.4)
      (globalThis as unknown as { process: { exit(code: number): void } }).process.exit(3);
    paintRipple(model, band, layer);
  },
});
