import { type AnyEffect, type Band, palette, parseHex, type Setting } from 'tenter';
import { paintInk, prepareRipple, type Ripple, ripple } from './ripple.ts';

/** Weighs its inks by how far they stand from the first to the last: of a single one that is 0 by 0. */
const loneInk: AnyEffect = {
  ...(ripple as AnyEffect),
  apiVersion: 2,
  parameters: {
    ...ripple.parameters,
    inks: palette({ least: 1, most: 3, default: ['#2c4a7c', '#8a5a2c'], help: 'Inks that are mixed.' }),
  },
  planes: ['tint'],
  prepare(setting: Setting) {
    const { inks } = setting.parameters as unknown as { inks: readonly string[] };
    const weight = (index: number) => (index / (inks.length - 1) >= 0 ? 1 + index : 0);
    const sum = inks.reduce((all, _, index) => all + weight(index), 0) || 1;
    const ink = [0, 1, 2].map((channel) =>
      inks.reduce((mixed, one, index) => mixed + (weight(index) / sum) * parseHex(one)[channel], 0),
    );
    return { ...prepareRipple(setting as never), ink };
  },
  paint(model: unknown, band: Band, layer: never) {
    const { ink, ...waves } = model as Ripple & { ink: number[] };
    paintInk(waves, band, layer, ink);
  },
};
export default loneInk;
