import type { Setting } from 'tenter';
import type { SwatchModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';
import { pyramidOf } from './pyramid.ts';
import { reportSwatch } from './reports.ts';
import { measure, suits } from './suits.ts';
import { swatchOf } from './swatch.ts';
import { comesBack, grow } from './ways.ts';

export function prepareSwatch(setting: Setting<typeof PARAMETERS>): SwatchModel {
  const { parameters: values, box, random, progress, quality } = setting;
  const swatch = swatchOf(setting.picture('picture'), values, quality);
  const { level } = swatch;
  progress(0.2);
  const levels = pyramidOf(level);
  const measured = measure(levels);
  const way = values.way === 'measured' ? suits(measured) : values.way;
  const grown = grow(way, {
    levels,
    width: level.width * level.mmPerSample,
    height: level.height * level.mmPerSample,
    box,
    turned: values.turned,
    mirrored: values.mirrored,
    quality,
    random,
    progress: (done) => progress(0.2 + 0.8 * done),
  });
  reportSwatch(setting, swatch, { way, measured, comesBack: comesBack(grown) });
  return { layAs: values.layAs, strength: values.strength / 100, grown };
}
