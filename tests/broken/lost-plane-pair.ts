import { type AnyLayer, defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** The load is lost where two numbers are nothing at once, and hangs on a third. */
export default defineEffect({
  ...ripple,
  planes: ['shade', 'load'],
  planesFor: ({ height, depth }) => (height === 0 && depth === 0 ? ['shade'] : ['shade', 'load']),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    (layer as AnyLayer).load?.fill(1 - model.waves.length / 20);
  },
});
