import { BLEND_MODES } from '../colour/blend.ts';
import { Fault } from '../fault.ts';
import { describeRange } from './describe-range.ts';
import { type AnyEffect, API_VERSION, OLDEST_API_VERSION } from './effect.ts';
import { PLANE_NAMES } from './layer.ts';
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
 * Checks that what a plugin exports is an effect of this contract. What it carries besides is let be: it
 * may be written for a host that knows more.
 *
 * @param candidate The default export of the plugin's module.
 * @param place     Where it came from, for messages.
 * @throws Fault (effect) that names the first thing that is missing or wrong.
 */
export function checkEffect(candidate: unknown, place: string): AnyEffect {
  if (typeof candidate !== 'object' || candidate === null) {
    throw misshapen(place, 'a default export made by defineEffect', describe(candidate));
  }
  const effect = candidate as Record<string, unknown>;
  checkVersion(effect.apiVersion, place);
  const word = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;
  require(typeof effect.name === 'string' &&
    word.test(effect.name), 'a name of lower case words with hyphens', effect.name);
  require(typeof effect.version === 'string' &&
    /^\d+\.\d+\.\d+/.test(effect.version), 'a version such as 1.0.0', effect.version);
  require(typeof effect.summary === 'string' &&
    effect.summary.length > 0, 'a summary of one line', effect.summary);
  require(Array.isArray(effect.planes) &&
    effect.planes.length > 0, `planes, some of ${PLANE_NAMES.join(', ')}`, effect.planes);
  for (const plane of effect.planes as unknown[]) {
    require(PLANE_NAMES.includes(plane as never), `planes, some of ${PLANE_NAMES.join(', ')}`, plane);
  }
  require(effect.blend === undefined ||
    BLEND_MODES.includes(
      effect.blend as never,
    ), `a blend mode, one of ${BLEND_MODES.join(', ')}`, effect.blend);
  require(typeof effect.prepare === 'function', 'a function prepare(setting)', effect.prepare);
  require(typeof effect.paint === 'function', 'a function paint(model, band, layer)', effect.paint);
  require(effect.planesFor === undefined ||
    typeof effect.planesFor === 'function', 'a function planesFor(parameters)', effect.planesFor);
  require(typeof effect.parameters === 'object' &&
    effect.parameters !== null, 'parameters', effect.parameters);
  for (const [name, parameter] of Object.entries(effect.parameters as object))
    checkParameter(name, parameter, place, effect.apiVersion as number);
  checkAlike(Object.keys(effect.parameters as object), place);
  resolveValues(String(effect.name), effect.parameters as never, {});
  return candidate as AnyEffect;

  function require(holds: boolean, expected: string, received: unknown): asserts holds {
    if (!holds) throw misshapen(place, expected, describe(received));
  }
}

function checkVersion(version: unknown, place: string): void {
  if (Number.isInteger(version) && isSpoken(version as number)) return;
  const spoken = `apiVersion ${OLDEST_API_VERSION} to ${API_VERSION}, those this host speaks`;
  const remedy =
    typeof version === 'number' && version > API_VERSION
      ? 'Update tenter, or install an older version of the plugin.'
      : typeof version === 'number'
        ? 'Install a newer version of the plugin, or ask its author for one.'
        : `Write apiVersion: ${API_VERSION} into the effect.`;
  throw misshapen(place, spoken, describe(version), remedy);
}

function isSpoken(version: number): boolean {
  return version >= OLDEST_API_VERSION && version <= API_VERSION;
}

/** Two names that differ in capitals alone are one to whoever types them. */
function checkAlike(names: readonly string[], place: string): void {
  for (const [index, name] of names.entries()) {
    const before = names.slice(0, index).find((other) => other.toLowerCase() === name.toLowerCase());
    if (before === undefined) continue;
    const remedy = 'Rename one of the two.';
    throw misshapen(place, 'parameters told apart by more than capitals', `${before} and ${name}`, remedy);
  }
}

function checkParameter(name: string, candidate: unknown, place: string, version: number): void {
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

function misshapen(
  subject: string,
  expected: string,
  received: string,
  remedy = 'plugins/README.md has the contract.',
): Fault {
  return new Fault({ kind: 'effect', expected, subject, received, remedy });
}

function describe(value: unknown): string {
  if (typeof value === 'string') return `"${value}"`;
  if (value === undefined) return 'nothing';
  return Array.isArray(value)
    ? `[${value.join(', ')}]`
    : typeof value === 'object'
      ? 'an object'
      : String(value);
}
