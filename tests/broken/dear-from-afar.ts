import { defineEffect } from 'tenter';
import { ripple, shadeAt } from './ripple.ts';

/** Takes a sample for every hundredth of a mm of a pixel, either way: from afar there are thousands. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    const count = Math.ceil(band.mmPerPixelX / 0.01);
    const share = 1 / (count * count);
    for (let k = 0; k < layer.shade.length; k++) {
      const [x, y] = [band.x + (k % band.width), band.y + Math.floor(k / band.width)];
      const shade = shadeAt(model, (x + 0.5) * band.mmPerPixelX, (y + 0.5) * band.mmPerPixelY, band);
      let sum = 0;
      for (let sample = 0; sample < count * count; sample++)
        sum += share * Math.abs(Math.cos(sample) / Math.cos(sample)) * shade;
      layer.shade[k] = sum;
    }
  },
});
