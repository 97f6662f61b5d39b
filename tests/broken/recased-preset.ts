import { type AnyEffect, palette } from 'tenter';
import shortPalette from './short-palette.ts';

/** Says the default inks in capitals, as another program writes them: they are the same inks. */
export const presets = [{ name: 'sepia', parameters: { inks: ['#2C4A7C', '#8A5A2C'] } }];

const recasedPreset: AnyEffect = {
  ...shortPalette,
  parameters: {
    ...shortPalette.parameters,
    inks: palette({ least: 1, most: 4, default: ['#2c4a7c', '#8a5a2c'], help: 'Inks that are mixed.' }),
  },
};
export default recasedPreset;
