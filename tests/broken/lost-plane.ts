import { type AnyLayer, defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Asks for waves where it should ask how deep the ground is: without them its load is lost. */
export default defineEffect({
  ...ripple,
  planes: ['shade', 'load'],
  planesFor: ({ height }) => (height === 0 ? ['shade'] : ['shade', 'load']),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    (layer as AnyLayer).load?.fill(1 - model.depth);
  },
});
