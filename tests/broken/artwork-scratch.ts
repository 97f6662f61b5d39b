import { defineEffect } from 'tenter';
import { type Dimmed, dimmed, paintDimmed, prepareDimmed } from './dimmed.ts';

interface Noted extends Dimmed {
  /** The artwork's own. */
  readonly alpha: Float32Array;
}

/** Notes down in the artwork where it is. */
export default defineEffect({
  ...dimmed,
  prepare: (setting): Noted => ({ ...prepareDimmed(setting), alpha: setting.artwork.alpha }),
  paint(model: Noted, band, layer) {
    paintDimmed(model, band, layer);
    model.alpha[0] = band.width;
  },
});
