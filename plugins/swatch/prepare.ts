import type { Setting } from 'tenter';
import { EVEN } from './even/index.ts';
import type { SwatchModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';
import { pyramidOf } from './pyramid.ts';
import { swatchOf } from './swatch.ts';

/** Samples of the finest level of a sketch. */
const SKETCHED = 4e5;

export function prepareSwatch(setting: Setting<typeof PARAMETERS>): SwatchModel {
  const { parameters: values, box, random, progress, quality, report } = setting;
  const { level, unevenness } = swatchOf(setting.picture('picture'), values);
  progress(0.2);
  const whole = pyramidOf(level);
  const levels =
    quality === 'sketch'
      ? whole.filter(({ width, height }, k) => width * height <= SKETCHED || k === whole.length - 1)
      : whole;
  const grown = EVEN.prepare({
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
  report({ name: 'light', value: unevenness, unit: 'ratio' });
  const back = EVEN.comesBack(grown);
  report({ name: 'piece comes back', value: Number.isFinite(back) ? back : 'nowhere near', unit: 'mm' });
  return { layAs: values.layAs, strength: values.strength / 100, way: 'even', grown };
}
