import { defineEffect, poissonPoints, shortestWay } from 'tenter';
import { paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Every pixel walks over all points of the box: a tile of twice the sides takes sixteen times as long. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { x, y } = poissonPoints(setting.box, 5, setting.random('points'));
    return { ...prepareRipple(setting), x, y };
  },
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let pixel = 0; pixel < layer.shade.length; pixel++) {
      const mmX = (band.x + (pixel % band.width) + 0.5) * band.mmPerPixelX;
      const mmY = (band.y + Math.floor(pixel / band.width) + 0.5) * band.mmPerPixelY;
      let nearest = 5;
      for (const [k, x] of model.x.entries()) {
        nearest = Math.min(nearest, Math.hypot(...shortestWay(model.lattice, x - mmX, model.y[k] - mmY)));
      }
      layer.shade[pixel] -= 0.02 * Math.round(nearest);
    }
  },
});
