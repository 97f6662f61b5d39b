import { defineEffect } from 'tenter';
import { dyed, paintDyed } from './dyed.ts';

/** Notes down in its picture where it is. */
export default defineEffect({
  ...dyed,
  paint(model, band, layer) {
    paintDyed(model, band, layer);
    model.samples[0] = band.width;
  },
});
