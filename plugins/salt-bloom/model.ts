import { fieldShape, type Lattice, type PeriodicField, type Quality, type Setting } from 'tenter';
import { dryLoad } from './balance.ts';
import { throwGrains } from './grains.ts';
import { layPaper, type Paper, poolPigment } from './paper.ts';
import type { PARAMETERS } from './parameters.ts';
import { type Running, runColours } from './running.ts';
import { layWash } from './wash.ts';

/** Everything `paint` needs. Plain data; knows nothing of pixels. */
export interface SaltModel {
  /** Of the box, mm. */
  readonly lattice: Lattice;
  /** How much paint lies where, mean 1; the tooth of the paper is not in it. */
  readonly load: PeriodicField;
  readonly paper: Paper;
  /** Nothing where colours are told to stay in place. */
  readonly running: Running | undefined;
  /** How strongly the paint settles in the hollows of the paper. */
  readonly settling: PeriodicField;
}

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
