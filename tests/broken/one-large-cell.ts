import { defineEffect, numeric, type TextureLayer } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

const { apiVersion, name, version, summary } = ripple;

/** Divides by how many of its patches fit side by side: of the largest none does into a tiny tile. */
export default defineEffect({
  apiVersion,
  name,
  version,
  summary,
  planes: ['shade'],
  parameters: {
    ...PARAMETERS,
    patch: numeric({ unit: 'mm', min: 0.5, max: 14, default: 1, help: 'Size of a patch.' }),
  },
  prepare(setting) {
    const { box, parameters } = setting;
    const fitting = Math.floor(Math.max(box.width, box.height) / parameters.patch);
    return { ...prepareRipple(setting), depth: parameters.depth / 2 + parameters.patch / fitting / 80 };
  },
  paint: (model, band, layer: TextureLayer<'shade'>) => paintRipple(model, band, layer),
});
