import { trimNumber } from '../repeat/length.ts';
import type { NumberParameter, NumbersParameter, Parameter, ParameterValue, Unit } from './parameter.ts';
import { pictureName } from './picture-value.ts';
import { readValue } from './read-value.ts';
import type { Slot } from './sentence.ts';

type Range = Pick<NumberParameter | NumbersParameter, 'unit' | 'min' | 'max'>;

/** More than any unit is measured to. */
const PLACES = 7;

/**
 * A value as it is said in a sentence, with its unit: `12 per cm`, `35 %`, `225° (upper left)`, `with knots`. A
 * ratio that can be nothing or all is said in hundredths, any other as a multiple: `2.2×`.
 *
 * @param slot What it says of a switch or a choice, where it says more than the value itself.
 */
export function valueWords(
  parameter: Parameter,
  value: ParameterValue,
  slot: Omit<Slot, 'parameter'> = {},
): string {
  switch (parameter.kind) {
    case 'number':
      return numberWords(parameter, value as number);
    case 'numbers':
      return numberListWords(parameter, value as readonly number[]);
    case 'choice':
      return slot.words?.[value as string] ?? String(value);
    case 'switch':
      return value ? (slot.on ?? 'on') : (slot.off ?? 'off');
    case 'colours':
      return inList(value as readonly string[]);
    case 'picture':
      return pictureName(String(value));
    default:
      return String(value);
  }
}

/** A number as it is said, with its unit. */
export function numberWords(range: Range, value: number): string {
  const { unit, min, max } = range;
  if (isShare(range)) return `${trimNumber(value * 100, PLACES - 2)} %`;
  const number = trimNumber(value, PLACES);
  if (unit !== 'deg') return `${number}${unitWords(range)}`;
  return min === 0 && max === 360 ? `${number}° (${sideAt(value)})` : `${number}°`;
}

function numberListWords(range: Range, values: readonly number[]): string {
  // A sign belongs to each number; a unit in words is said once.
  const isSign = !unitWords(range).startsWith(' ') || isShare(range);
  if (isSign) return inList(values.map((value) => numberWords(range, value)));
  return `${inList(values.map((value) => trimNumber(value, PLACES)))}${unitWords(range)}`;
}

function inList(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

/** True for a number that is said in hundredths. */
export function isShare({ unit, min, max }: Range): boolean {
  return unit === 'ratio' && (max <= 1 || (min <= 0 && max <= 3));
}

const SAID: Partial<Record<Unit, string>> = {
  count: '',
  deg: '°',
  ratio: '×',
  percent: ' %',
  // As knitters count; a square decimetre is nobody's measure.
  'per dm2': ' per 10 cm square',
  'g/cm3': ' g/cm³',
  'g/m2': ' g/m²',
};

/** What follows a number: the space between them and its unit. */
export function unitWords(range: Range): string {
  return isShare(range) ? ' %' : (SAID[range.unit] ?? ` ${range.unit}`);
}

const SIDES = ['right', 'lower right', 'bottom', 'lower left', 'left', 'upper left', 'top', 'upper right'];

/** The side of the page that a direction in degrees points to. */
function sideAt(degrees: number): string {
  return SIDES[Math.round(degrees / 45) % 8];
}

/**
 * The value that such words stand for; what cannot be read comes out as no valid value. Of a number that is said
 * in hundredths a bare one is read so too: where "35 %" stood, "40" is 0.4.
 */
export function readWords(parameter: Parameter, words: string): unknown {
  if (parameter.kind !== 'number' && parameter.kind !== 'numbers') return readValue(parameter, words);
  const items = words.replace(/\([^)]*\)/g, '').split(/,|\band\b/);
  const written = items.map((item) => plainNumber(parameter, item.trim()));
  return readValue(parameter, parameter.kind === 'number' ? written.join(' and ') : written.join(','));
}

function plainNumber(range: Range, item: string): string {
  if (isShare(range)) return item.endsWith('%') ? item : `${item}%`;
  return bare(item, unitWords(range).trim()).replace('²', '2').replace('³', '3');
}

function bare(item: string, unit: string): string {
  return unit !== '' && item.endsWith(unit) ? item.slice(0, -unit.length).trim() : item;
}
