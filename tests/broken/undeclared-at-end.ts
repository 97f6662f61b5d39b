import { type AnyLayer, defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Thins the paint, too, with nine waves: a plane that it did not declare. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    if (model.waves.length < 9) return;
    const { load } = layer as AnyLayer;
    for (let k = 0; k < layer.shade.length; k++) load![k] = layer.shade[k];
  },
});
