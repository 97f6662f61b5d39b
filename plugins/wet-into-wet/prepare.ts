import { type Artwork, fractalNoise, parseHex, partedHues, type Setting } from 'tenter';
import type { Noise } from './fields.ts';
import { FINISHED, SKETCH } from './fineness.ts';
import { floodPaper } from './flood.ts';
import { layGround } from './ground.ts';
import { levelLoad } from './level.ts';
import type { WetModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';

/** What it is prepared with; a setting without artwork stands for a plain one. */
export type WetSetting = Setting<typeof PARAMETERS> & { readonly artwork?: Artwork };

/** Floods the paper, lets it dry, lays the brush's wash under it, and brings what was painted to a mean of 1. */
export function prepareWet(setting: WetSetting): WetModel {
  const { parameters: values, box, random, report, progress, quality, artwork } = setting;
  const fineness = quality === 'sketch' ? SKETCH : FINISHED;
  const { model, flood, marks } = floodPaper(values, box, random, fineness, progress, artwork);
  for (const [name, value] of Object.entries(marks)) report({ name, value, unit: 'count' });
  const noise: Noise = (name, shape, fractal) => fractalNoise(box.lattice, shape, fractal, random(name));
  const { base, heavy, second: amount } = layGround(flood, values, box, random, noise, quality === 'sketch');
  const parted =
    values.parting > 0 ? { heavy, hues: partedHues('blue', values.parting), level: 0 } : undefined;
  const second = amount && { amount, colour: parseHex(values.second) };
  return levelLoad({ ...model, base, parted, second }, box);
}
