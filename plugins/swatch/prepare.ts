import type { Setting } from 'tenter';
import type { SwatchModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';
import { pyramidOf } from './pyramid.ts';
import { reportSwatch } from './reports.ts';
import { measure, suits } from './suits.ts';
import { swatchOf } from './swatch.ts';
import { comesBack, grow } from './ways.ts';

/** Where it has to be laid more often than this to cover the box, every join of pieces would be seen again and again. */
const MOST_TIMES = 200;

export function prepareSwatch(setting: Setting<typeof PARAMETERS>): SwatchModel {
  const { parameters: values, box, random, progress, quality } = setting;
  const swatch = swatchOf(setting.picture('picture'), values, {
    box,
    quality,
    random: random('part of the swatch'),
  });
  const { level } = swatch;
  progress(0.2);
  const levels = pyramidOf(level);
  const measured = measure(levels);
  const isSmall = box.width * box.height > MOST_TIMES * level.width * level.height * level.mmPerSample ** 2;
  const suited = isSmall ? 'even' : suits(measured);
  const way = values.way === 'measured' ? suited : values.way;
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
