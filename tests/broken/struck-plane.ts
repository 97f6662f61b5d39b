import { type AnyLayer, defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

const planes: ('shade' | 'load')[] = ['shade', 'load'];

/** Strikes load from the one list there is, and never puts it back. */
export default defineEffect({
  ...ripple,
  planes: ['shade', 'load'],
  planesFor({ depth }) {
    if (depth === 0 && planes.length === 2) planes.pop();
    return planes;
  },
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    (layer as AnyLayer).load?.fill(1 - model.depth);
  },
});
