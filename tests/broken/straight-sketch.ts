import { API_VERSION, defineEffect, toggle } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, type Ripple } from './ripple.ts';

/** Its sketch forgets a switch: with that on, the waves of the print run the other way. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'straight-sketch',
  version: '1.0.0',
  summary: 'Waves that can be turned.',
  planes: ['shade'],
  parameters: { ...PARAMETERS, turned: toggle({ default: false, help: 'Waves that run the other way.' }) },
  prepare(setting): Ripple {
    const model = prepareRipple(setting);
    if (setting.quality === 'sketch' || !setting.parameters.turned) return model;
    const waves = model.waves.map(([across, down, phase]) => [across + 3, -down - 2, phase] as const);
    return { ...model, waves };
  },
  paint: paintRipple,
});
