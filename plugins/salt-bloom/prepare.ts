import { fieldShape, type Quality, type Setting } from 'tenter';
import { dryLoad } from './balance.ts';
import { throwGrains } from './grains.ts';
import type { SaltModel } from './model.ts';
import { layPaper, poolPigment } from './paper.ts';
import type { PARAMETERS } from './parameters.ts';
import { runColours } from './running.ts';
import { layWash } from './wash.ts';

/** Cells of the simulation, mm: finer for fine salt, whose stars are but a few cells wide. */
function cellFor(grain: number, quality: Quality): number {
  return quality === 'sketch' ? 0.4 : 0.12 + 0.04 * Math.max(0.4, Math.min(1, grain));
}

export function prepareSalt(setting: Setting<typeof PARAMETERS>): SaltModel {
  return prepareOnCells(setting, cellFor(setting.parameters.grain, setting.quality));
}

/** The same on cells of any size: the composition stays, the detail follows the cells. */
export function prepareOnCells(setting: Setting<typeof PARAMETERS>, mmPerCell: number): SaltModel {
  const { parameters: values, box, random, progress, report } = setting;
  const shape = fieldShape(box, mmPerCell);
  const wash = layWash(values, box, random);
  const grains = throwGrains(values, box, wash, random);
  report({ name: 'grains', value: grains.x.length, unit: 'count' });
  progress(0.05);
  const { load, lift } = dryLoad(values, box, shape, grains, wash, random, (done) =>
    progress(0.05 + 0.95 * done),
  );
  return {
    lattice: box.lattice,
    load: { ...shape, values: load },
    running: values.run > 0 ? runColours(values, box, shape, wash, lift, random) : undefined,
    paper: layPaper(values.tooth, box, random),
    settling: poolPigment(values.granulation, box, random),
  };
}
