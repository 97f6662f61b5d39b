import { type AnyLayer, defineEffect, numbers } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Raises nothing where no height is above 0, though all may lie below it. */
export default defineEffect({
  apiVersion: 2,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    heights: numbers({
      ...{ unit: 'mm', min: -0.5, max: 0.5, least: 1, most: 4, default: [0.1, 0.2] },
      help: 'Heights of the waves, by turns.',
    }),
  },
  planes: ['shade', 'relief'],
  planesFor: ({ heights }) => (Math.max(...heights) > 0 ? ['shade', 'relief'] : ['shade']),
  prepare: (setting) => ({ ...prepareRipple(setting), heights: setting.parameters.heights }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    const { relief } = layer as AnyLayer;
    if (!relief || Math.max(...model.heights) <= 0) return;
    for (let k = 0; k < relief.length; k++) {
      relief[k] = model.heights.reduce(
        (sum, one, index) => sum + one * (layer.shade[k] - 0.5) ** (index + 1),
        0,
      );
    }
  },
});
