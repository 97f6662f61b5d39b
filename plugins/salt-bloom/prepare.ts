import { type Artwork, fieldShape, partedHues, type Quality, type Setting } from 'tenter';
import { dryLoad } from './balance.ts';
import { paintToLift } from './bare.ts';
import { throwGrains } from './grains.ts';
import { layGround } from './ground.ts';
import { partPigments } from './hues.ts';
import type { SaltModel } from './model.ts';
import { layPaper, poolPigment } from './paper.ts';
import type { PARAMETERS } from './parameters.ts';
import { runColours } from './running.ts';
import { layWash } from './wash.ts';

/** What it is prepared with; a setting without artwork stands for a plain one. */
export type SaltSetting = Setting<typeof PARAMETERS> & { readonly artwork?: Artwork };

/** Cells of the simulation, mm: finer for fine salt, whose stars are but a few cells wide. */
function cellFor(grain: number, quality: Quality): number {
  return quality === 'sketch' ? 0.4 : 0.12 + 0.04 * Math.max(0.4, Math.min(1, grain));
}

export function prepareSalt(setting: SaltSetting): SaltModel {
  return prepareOnCells(setting, cellFor(setting.parameters.grain, setting.quality));
}

/** The same on cells of any size: the composition stays, the detail follows the cells. */
export function prepareOnCells(setting: SaltSetting, mmPerCell: number): SaltModel {
  const { parameters: values, box, random, progress, report, quality, artwork } = setting;
  const shape = fieldShape(box, mmPerCell);
  const wash = layWash(values, box, random);
  const grains = throwGrains(values, box, wash, random);
  report({ name: 'grains', value: grains.x.length, unit: 'count' });
  progress(0.05);
  const ground = layGround(values, box, shape, random, quality === 'sketch');
  progress(0.2);
  const painted = artwork && paintToLift(artwork, shape);
  const { load, lift } = dryLoad(
    ...([values, box, shape, grains, wash, random] as const),
    (done) => progress(0.2 + 0.75 * done),
    { ground, painted },
  );
  return {
    lattice: box.lattice,
    load: { ...shape, values: load },
    running: values.run > 0 ? runColours(values, box, shape, wash, lift, random) : undefined,
    heavy: values.parting > 0 ? partPigments(box, shape, load, lift, ground, values.brushwork) : undefined,
    hues: partedHues('blue', values.parting),
    paper: layPaper(values.tooth, box, random),
    settling: ground?.settling ?? poolPigment(values.granulation, box, random),
  };
}
