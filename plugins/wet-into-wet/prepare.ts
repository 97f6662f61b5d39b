import { fractalNoise, partedHues, type Setting } from 'tenter';
import type { Noise } from './fields.ts';
import { FINISHED, SKETCH } from './fineness.ts';
import { floodPaper } from './flood.ts';
import { layGround } from './ground.ts';
import { levelLoad } from './level.ts';
import type { WetModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';

/** Floods the paper, lets it dry, lays the brush's wash under it, and brings what was painted to a mean of 1. */
export function prepareWet(setting: Setting<typeof PARAMETERS>): WetModel {
  const { parameters: values, box, random, report, progress, quality } = setting;
  const fineness = quality === 'sketch' ? SKETCH : FINISHED;
  const { model, flood, marks } = floodPaper(values, box, random, fineness, progress);
  for (const [name, value] of Object.entries(marks)) report({ name, value, unit: 'count' });
  if (values.brushwork === 0 && values.parting === 0) return levelLoad(model, box);
  const noise: Noise = (name, shape, fractal) => fractalNoise(box.lattice, shape, fractal, random(name));
  const { base, heavy } = layGround(flood, values, box, random, noise, quality === 'sketch');
  const parted =
    values.parting > 0 ? { heavy, hues: partedHues('blue', values.parting), level: 0 } : undefined;
  return levelLoad({ ...model, base, isFine: true, parted }, box);
}
