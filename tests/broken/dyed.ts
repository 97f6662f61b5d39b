import { API_VERSION, type Band, defineEffect, picture, type Setting, type TextureLayer } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, type Ripple } from './ripple.ts';

const DYED = {
  ...PARAMETERS,
  cloth: picture({ default: 'cloth.png', help: 'The picture whose tone darkens the waves.' }),
};

type DyedSetting = Setting<typeof DYED>;

export interface Dyed extends Ripple {
  /** Light that returns of the picture as a whole, 0.4..1. */
  readonly tone: number;
  /** The picture's own, to be looked at. */
  readonly samples: Uint16Array;
}

/** The sound effect that broken ones which take a picture are variations of. */
export const dyed = defineEffect({
  apiVersion: API_VERSION,
  name: 'ripple',
  version: '1.0.0',
  summary: 'Crossing waves in the tone of a picture.',
  parameters: DYED,
  planes: ['shade'],
  prepare: prepareDyed,
  paint: paintDyed,
});

export function prepareDyed(setting: DyedSetting): Dyed {
  const { samples } = setting.picture('cloth');
  let sum = 0;
  for (const sample of samples) sum += sample;
  return { ...prepareRipple(setting), samples, tone: 0.4 + (0.6 * sum) / samples.length / 65_535 };
}

export function paintDyed(model: Dyed, band: Band, layer: TextureLayer<'shade'>): void {
  paintRipple(model, band, layer);
  for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= model.tone;
}

export default dyed;
