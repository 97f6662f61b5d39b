import { type AnyEffect, palette, type Setting } from 'tenter';
import { ripple } from './ripple.ts';

/** Sorts a list that it was given: whoever reads it next finds another order. */
const sortedPalette: AnyEffect = {
  ...(ripple as AnyEffect),
  apiVersion: 2,
  parameters: {
    ...ripple.parameters,
    colours: palette({
      ...{ least: 2, most: 5, default: ['#ffffff', '#000000'] },
      help: 'Colours, the first of which is the least.',
    }),
  },
  prepare(setting: Setting) {
    (setting.parameters as unknown as { colours: string[] }).colours.sort();
    return ripple.prepare(setting as never);
  },
};
export default sortedPalette;
