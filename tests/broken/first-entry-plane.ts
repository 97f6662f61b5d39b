import { type AnyEffect, defineEffect, numbers } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, type RippleSetting, ripple } from './ripple.ts';

const firstEntryPlane: AnyEffect = {
  ...(ripple as unknown as AnyEffect),
  apiVersion: 2,
  parameters: {
    ...PARAMETERS,
    heights: numbers({
      unit: 'mm',
      min: 0,
      max: 0.4,
      least: 1,
      most: 4,
      default: [0.2, 0.1],
      help: 'Heights of the ribs.',
    }),
  },
  planes: ['shade', 'relief'],
  planesFor: ({ heights }) => ((heights as readonly number[])[0] > 0 ? ['shade', 'relief'] : ['shade']),
  prepare(setting) {
    return {
      ...prepareRipple(setting as unknown as RippleSetting),
      heights: setting.parameters.heights as readonly number[],
    };
  },
  paint(model: never, band, layer) {
    const { heights, ...ripples } = model as Parameters<typeof paintRipple>[0] & {
      readonly heights: readonly number[];
    };
    paintRipple(ripples, band, layer as never);
    const { relief, shade } = layer as Record<'relief' | 'shade', Float32Array>;
    if (!relief) return;
    for (let k = 0; k < relief.length; k++)
      relief[k] = heights.reduce((sum, height, index) => sum + (height * shade[k]) / (4 + index), 0);
  },
};

/** Asks the first entry of a list alone whether a plane is needed. */
export default defineEffect(firstEntryPlane);
