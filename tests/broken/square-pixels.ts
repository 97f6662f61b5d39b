import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Takes every pixel to be as high as it is wide. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, { ...band, mmPerPixelY: band.mmPerPixelX }, layer);
  },
});
