import { trimNumber } from '../repeat/length.ts';
import type { ParameterValue } from './parameter.ts';

/** More than any unit is measured to; beyond it stands what sums leave in the last bits: 2.8600000000000003. */
const PLACES = 9;

/** As it is written after `--set name=`. */
export function writtenValue(value: ParameterValue): string {
  return typeof value === 'number' ? trimNumber(value, PLACES) : String(value);
}

/** The same within a sentence: in quotes where it would not stand as one word. */
export function spokenValue(value: ParameterValue): string {
  const written = writtenValue(value);
  return /^[^\s"]+$/.test(written) ? written : JSON.stringify(written);
}
