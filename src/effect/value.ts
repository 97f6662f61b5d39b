import { trimNumber } from '../repeat/length.ts';
import type {
  ColoursParameter,
  NumberParameter,
  NumbersParameter,
  Parameter,
  ParameterValue,
} from './parameter.ts';
import { isPictureValue } from './picture-value.ts';
import { fitsPattern } from './text-pattern.ts';

/** More than any unit is measured to; beyond it stands what sums leave in the last bits: 2.8600000000000003. */
const PLACES = 9;

/** True where a parameter takes the value. */
export function isValid(parameter: Parameter, value: unknown): value is ParameterValue {
  switch (parameter.kind) {
    case 'number':
      return isWithin(parameter, value);
    case 'choice':
      return typeof value === 'string' && parameter.options.includes(value);
    case 'colour':
      return isHex(value);
    case 'switch':
      return typeof value === 'boolean';
    case 'numbers':
      return isListFor(parameter, value) && value.every((item) => isWithin(parameter, item));
    case 'colours':
      return isListFor(parameter, value) && value.every(isHex);
    case 'text':
      return typeof value === 'string' && fitsPattern(value, parameter.pattern, parameter.longest);
    case 'picture':
      return isPictureValue(value);
  }
}

/** True for a number within the range of a number or of each of a list. */
export function isWithin(
  { min, max, whole }: Pick<NumberParameter, 'min' | 'max' | 'whole'>,
  value: unknown,
): value is number {
  return typeof value === 'number' && value >= min && value <= max && (!whole || Number.isInteger(value));
}

/** The least and the greatest value of a range, whole where it takes whole numbers only. */
export function endsOf({
  min,
  max,
  whole,
}: Pick<NumberParameter, 'min' | 'max' | 'whole'>): [number, number] {
  return whole ? [Math.ceil(min), Math.floor(max)] : [min, max];
}

export function isHex(value: unknown): value is string {
  return typeof value === 'string' && /^#[0-9a-f]{6}$/i.test(value);
}

/** True for a list of the right length, whatever is in it; a hole would be skipped by `every`. */
export function isListFor(
  { least, most }: Pick<NumbersParameter | ColoursParameter, 'least' | 'most'>,
  value: unknown,
): value is readonly unknown[] {
  return Array.isArray(value) && value.length >= least && value.length <= most && !value.includes(undefined);
}

/** True for the same value, lists item by item. */
export function isSameValue(one: unknown, other: unknown): boolean {
  if (!Array.isArray(one) || !Array.isArray(other)) return one === other;
  return one.length === other.length && one.every((item, index) => item === other[index]);
}

/** A value of one's own that nobody can change. */
export function frozenValue(value: ParameterValue): ParameterValue {
  return typeof value === 'object' ? (Object.freeze([...value]) as ParameterValue) : value;
}

/** As it is written after `--set name=`: the items of a list with commas between. */
export function writtenValue(value: ParameterValue): string {
  if (typeof value === 'object') return value.map(writtenValue).join(',');
  return typeof value === 'number' ? trimNumber(value, PLACES) : String(value);
}

/** The same within a sentence: in quotes where it would not stand as one word. */
export function spokenValue(value: ParameterValue): string {
  const written = writtenValue(value);
  return /^[^\s"]+$/.test(written) ? written : JSON.stringify(written);
}
