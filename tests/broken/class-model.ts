import { type Band, defineEffect, type TextureLayer } from 'tenter';
import { paintRipple, prepareRipple, type Ripple, ripple } from './ripple.ts';

class Waves {
  readonly model: Ripple;
  constructor(model: Ripple) {
    this.model = model;
  }
  paint(band: Band, layer: TextureLayer<'shade'>): void {
    paintRipple(this.model, band, layer);
  }
}

/** Its model has methods, which do not reach a worker. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => new Waves(prepareRipple(setting)),
  paint: (model: Waves, band, layer) => model.paint(band, layer),
});
