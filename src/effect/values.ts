import { Fault } from '../fault.ts';
import { suggestName } from '../nearest.ts';
import type { Parameter, ParameterSet, ParameterValue, ValuesOf } from './parameter.ts';

/**
 * Checks given values against a parameter set and fills in the defaults.
 *
 * @param owner   Whose parameters they are, for messages, e.g. `linen-weave`.
 * @param retired What is no longer taken, and what to write instead.
 * @returns Frozen, every parameter present.
 * @throws Fault (usage) for an unknown name (the nearest is suggested), a wrong type, a value out of range or NaN.
 */
export function resolveValues<P extends ParameterSet>(
  owner: string,
  parameters: P,
  given: Readonly<Record<string, unknown>>,
  retired?: Retired,
): ValuesOf<P> {
  const [first] = valueFaults(owner, parameters, given, retired);
  if (first) throw first.fault;
  const values: Record<string, ParameterValue> = {};
  for (const [name, { default: usual }] of Object.entries(parameters)) {
    values[name] = Object.hasOwn(given, name) ? (given[name] as ParameterValue) : usual;
  }
  return Object.freeze(values) as ValuesOf<P>;
}

/** What an effect no longer takes, by name, and what to write instead. */
type Retired = Readonly<Record<string, string>>;

/** All that is wrong with given values and with the defaults of the others: unknown names first. */
export function valueFaults(
  owner: string,
  parameters: ParameterSet,
  given: Readonly<Record<string, unknown>>,
  retired?: Retired,
): { readonly name: string; readonly fault: Fault }[] {
  const names = Object.keys(given);
  const isKnown = (name: string) => Object.hasOwn(parameters, name);
  const unknown = names.filter((name) => !isKnown(name));
  const taken = (name: string) => (Object.hasOwn(given, name) ? given[name] : parameters[name].default);
  const wrong = Object.keys(parameters).filter((name) => !isValid(parameters[name], taken(name)));
  return [
    ...unknown.map((name) => ({ name, fault: unknownParameter(owner, parameters, name, retired) })),
    ...wrong.map((name) => ({ name, fault: invalidValue(owner, name, parameters[name], taken(name)) })),
  ];
}

/**
 * Reads a value written as text, as in `--set ends=14`. A number may carry its unit.
 *
 * @throws Fault (usage) where the text is no value of the parameter.
 */
export function parseValue(
  owner: string,
  parameters: ParameterSet,
  name: string,
  text: string,
  retired?: Retired,
): ParameterValue {
  if (!Object.hasOwn(parameters, name)) throw unknownParameter(owner, parameters, name, retired);
  const parameter = parameters[name];
  const value = readText(parameter, text.trim());
  if (!isValid(parameter, value)) throw invalidValue(owner, name, parameter, text);
  return value;
}

/** What a parameter takes, in words: `a number from 4 to 40 per cm`. */
export function describeRange(parameter: Parameter): string {
  switch (parameter.kind) {
    case 'number': {
      const unit = parameter.unit === 'ratio' || parameter.unit === 'count' ? '' : ` ${parameter.unit}`;
      return `a ${parameter.whole ? 'whole ' : ''}number from ${parameter.min} to ${parameter.max}${unit}`;
    }
    case 'choice':
      return `one of ${parameter.options.join(', ')}`;
    case 'colour':
      return 'a colour written #rrggbb';
    case 'switch':
      return 'true or false';
  }
}

function readText(parameter: Parameter, text: string): ParameterValue {
  if (parameter.kind === 'number') return readNumber(parameter.unit, text);
  if (parameter.kind === 'switch')
    return text === 'true' || text === 'on' ? true : text !== 'false' && text !== 'off' ? text : false;
  return text;
}

/** A share may be said in hundredths: `60%`. */
function readNumber(unit: string, text: string): number {
  const percent = unit === 'ratio' && PERCENT.exec(text);
  if (percent) return Number(percent[1]) / 100;
  const bare = text.endsWith(unit) ? text.slice(0, -unit.length).trim() : text;
  return bare === '' ? Number.NaN : Number(bare);
}

const PERCENT = /^(\d+(?:\.\d+)?)\s*%$/;

/** How it should be written, where it is plain what is meant. */
function asMeant(parameter: Parameter, value: unknown): string {
  if (typeof value !== 'string') return '';
  const text = value.trim();
  if (parameter.kind === 'colour' && /^[0-9a-f]{6}$/i.test(text)) return `Write "#${text}". `;
  if (parameter.kind !== 'number') return '';
  const number = readNumber(parameter.unit, text);
  return isValid(parameter, number) ? `Write ${number}. ` : '';
}

function isValid(parameter: Parameter, value: unknown): value is ParameterValue {
  switch (parameter.kind) {
    case 'number':
      return (
        typeof value === 'number' &&
        value >= parameter.min &&
        value <= parameter.max &&
        (!parameter.whole || Number.isInteger(value))
      );
    case 'choice':
      return typeof value === 'string' && parameter.options.includes(value);
    case 'colour':
      return typeof value === 'string' && /^#[0-9a-f]{6}$/i.test(value);
    case 'switch':
      return typeof value === 'boolean';
  }
}

function unknownParameter(
  owner: string,
  parameters: ParameterSet,
  name: string,
  retired: Retired = {},
): Fault {
  const isRetired = Object.hasOwn(retired, name);
  return new Fault({
    kind: 'usage',
    expected: 'the name of a parameter',
    subject: owner,
    received: `"${name}"`,
    remedy: isRetired ? retired[name] : suggestName(name, Object.keys(parameters)),
    saying: isRetired
      ? `${owner} no longer takes "${name}".`
      : `No parameter of ${owner} is called "${name}".`,
  });
}

function invalidValue(owner: string, name: string, parameter: Parameter, value: unknown): Fault {
  return new Fault({
    kind: 'usage',
    expected: describeRange(parameter),
    subject: `${name} of ${owner}`,
    received: typeof value === 'string' ? `"${value}"` : String(value),
    remedy: `${asMeant(parameter, value)}The default is ${parameter.default}; "tenter effects ${owner}" lists them all.`,
  });
}
