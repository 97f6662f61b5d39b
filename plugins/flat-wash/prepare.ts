import { type Lattice, layWash, partedHues, type Setting, type Wash } from 'tenter';
import type { PARAMETERS } from './parameters.ts';

/** Everything that painting needs. Plain data. */
export interface FlatWashModel {
  readonly lattice: Lattice;
  readonly wash: Wash;
  /** How much more paint of each channel there is per unit of heavy pigment. */
  readonly hues: readonly [number, number, number];
}

export function prepareFlatWash(setting: Setting<typeof PARAMETERS>): FlatWashModel {
  const { parameters: values, box, random, quality, progress } = setting;
  const wash = layWash(
    box,
    { ...values, drying: values.drying / 100 },
    random,
    quality === 'sketch',
    progress,
  );
  return { lattice: box.lattice, wash, hues: partedHues(values.settles, values.parting) };
}
