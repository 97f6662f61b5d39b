import { describeRange } from './describe-range.ts';
import { describe, misshapen } from './misshapen.ts';
import {
  type ColoursParameter,
  LATER_KINDS,
  type NumbersParameter,
  type Parameter,
  type TextParameter,
  UNITS,
} from './parameter.ts';
import { MOST_PATTERN, MOST_TEXT, patternFault } from './text-pattern.ts';
import { resolveValues } from './values.ts';

/**
 * Checks one parameter of an effect.
 *
 * @param place   Where the effect came from, for messages.
 * @param version Of the contract that the effect was written for.
 * @throws Fault (effect) that names the first thing that is missing or wrong.
 */
export function checkParameter(name: string, candidate: unknown, place: string, version: number): void {
  const parameter = candidate as Parameter;
  const owner = `${place}, parameter ${name}`;
  if (!/^[a-z][a-zA-Z0-9]*$/.test(name))
    throw misshapen(owner, 'a name of letters and digits, lower case first', name);
  if (
    typeof parameter !== 'object' ||
    parameter === null ||
    typeof parameter.help !== 'string' ||
    parameter.help === ''
  ) {
    throw misshapen(owner, 'a parameter with a help sentence', describe(candidate));
  }
  checkKind(parameter.kind, owner, version);
  if (parameter.kind === 'number' || parameter.kind === 'numbers') checkRange(parameter, owner);
  if (parameter.kind === 'numbers' || parameter.kind === 'colours') checkLength(parameter, owner);
  if (parameter.kind === 'text') checkText(parameter, owner);
  try {
    resolveValues(place, { [name]: parameter }, {});
  } catch {
    throw misshapen(owner, `a default that is ${describeRange(parameter)}`, describe(parameter.default));
  }
}

const FIRST_KINDS = ['number', 'choice', 'colour', 'switch'];

function checkKind(kind: unknown, owner: string, version: number): void {
  const isLater = LATER_KINDS.includes(kind as never);
  if (isLater && version < 2) {
    const remedy = 'Write apiVersion: 2 into the effect.';
    throw misshapen(owner, `apiVersion 2 for the kind ${kind}`, describe(version), remedy);
  }
  if (isLater || FIRST_KINDS.includes(kind as string)) return;
  const kinds = [...FIRST_KINDS, ...LATER_KINDS];
  throw misshapen(owner, `a kind: ${kinds.slice(0, -1).join(', ')} or ${kinds.at(-1)}`, describe(kind));
}

function checkRange({ unit, min, max }: Pick<NumbersParameter, 'unit' | 'min' | 'max'>, owner: string): void {
  if (!UNITS.includes(unit)) throw misshapen(owner, `a unit, one of ${UNITS.join(', ')}`, describe(unit));
  if (!(min < max)) throw misshapen(owner, 'a min below its max', `${min}..${max}`);
}

/** Items that a list may have. */
const MOST_ITEMS = 256;

function checkLength({ least, most }: Pick<ColoursParameter, 'least' | 'most'>, owner: string): void {
  const isSound = Number.isInteger(least) && Number.isInteger(most) && least >= 1 && least <= most;
  if (isSound && most <= MOST_ITEMS) return;
  throw misshapen(
    owner,
    `whole numbers, least from 1 and most from least to ${MOST_ITEMS}`,
    `${least}..${most}`,
  );
}

function checkText({ pattern, longest, say }: TextParameter, owner: string): void {
  if (typeof say !== 'string' || say === '')
    throw misshapen(owner, '"say", what it takes in words', describe(say));
  if (!Number.isInteger(longest) || longest < 1 || longest > MOST_TEXT)
    throw misshapen(owner, `longest, a whole number from 1 to ${MOST_TEXT}`, describe(longest));
  if (typeof pattern !== 'string')
    throw misshapen(owner, 'pattern, the source of a regular expression in quotes', describe(pattern));
  const fault = patternFault(pattern);
  if (fault === undefined) return;
  throw misshapen(
    owner,
    `a pattern of ${MOST_PATTERN} characters at most that is matched without trying again`,
    fault,
    'Leave out (?=, (?!, (?<=, (?<!, back references, \\u escapes and counts above 1,000; write what it says in prepare instead.',
  );
}
