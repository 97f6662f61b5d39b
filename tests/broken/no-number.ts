import { defineEffect } from 'tenter';
import { ripple } from './ripple.ts';

/** A misspelt name: everything worked out from it is no number. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    ripple.paint(model, band, layer);
    const misspelt = (model as unknown as { depht?: number }).depht as number;
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] += misspelt;
  },
});
