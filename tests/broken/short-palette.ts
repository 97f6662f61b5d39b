import { type AnyEffect, type Band, palette, parseHex, type Setting } from 'tenter';
import { paintInk, prepareRipple, type Ripple, ripple } from './ripple.ts';

/** Of five inks that may be given the last is never mixed in. */
const shortPalette: AnyEffect = {
  ...(ripple as AnyEffect),
  apiVersion: 2,
  parameters: {
    ...ripple.parameters,
    inks: palette({ least: 1, most: 5, default: ['#2c4a7c', '#8a5a2c'], help: 'Inks that are mixed.' }),
  },
  planes: ['tint'],
  prepare(setting: Setting) {
    const { inks } = setting.parameters as unknown as { inks: readonly string[] };
    const used = inks.slice(0, 4).map((ink) => parseHex(ink));
    const ink = [0, 1, 2].map((channel) => used.reduce((sum, one) => sum + one[channel], 0) / used.length);
    return { ...prepareRipple(setting as never), ink };
  },
  paint(model: unknown, band: Band, layer: never) {
    const { ink, ...waves } = model as Ripple & { ink: number[] };
    paintInk(waves, band, layer, ink);
  },
};
export default shortPalette;
