import { type Lattice, layWash, type Setting, type Wash } from 'tenter';
import type { PARAMETERS } from './parameters.ts';

/** Everything that painting needs. Plain data. */
export interface FlatWashModel {
  readonly lattice: Lattice;
  readonly wash: Wash;
}

export function prepareFlatWash(setting: Setting<typeof PARAMETERS>): FlatWashModel {
  const { parameters: values, box, random, quality } = setting;
  const wash = layWash(
    box,
    { ...values, drying: values.drying / 100, parting: 0 },
    random,
    quality === 'sketch',
  );
  return { lattice: box.lattice, wash };
}
