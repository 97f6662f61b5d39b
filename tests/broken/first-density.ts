import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

let grain: number | undefined;

/** Makes its fine detail for the first density that it paints. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    grain ??= band.mmPerPixelX;
    paintRipple({ ...model, depth: model.depth + Math.min(0.1, grain / 10) }, band, layer);
  },
});
