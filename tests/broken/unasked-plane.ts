import { type AnyLayer, defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Says that flat waves need no load, and paints it all the same. */
export default defineEffect({
  ...ripple,
  planes: ['shade', 'load'],
  planesFor: ({ height }) => (height === 0 ? ['shade'] : ['shade', 'load']),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    (layer as AnyLayer).load!.fill(0.5 + model.height / 4);
  },
});
