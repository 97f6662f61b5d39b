import { Fault } from '../fault.ts';
import { suggestName } from '../nearest.ts';
import type { Parameter, ParameterSet, ParameterValue, ValuesOf } from './parameter.ts';

/**
 * Checks given values against a parameter set and fills in the defaults.
 *
 * @param owner Whose parameters they are, for messages, e.g. `linen-weave`.
 * @returns Frozen, every parameter present.
 * @throws Fault (usage) for an unknown name (the nearest is suggested), a wrong type, a value out of range or NaN.
 */
export function resolveValues<P extends ParameterSet>(
  owner: string,
  parameters: P,
  given: Readonly<Record<string, unknown>>,
): ValuesOf<P> {
  for (const name of Object.keys(given)) {
    if (!Object.hasOwn(parameters, name)) throw unknownParameter(owner, parameters, name);
  }
  const values: Record<string, ParameterValue> = {};
  for (const [name, parameter] of Object.entries(parameters)) {
    const value = Object.hasOwn(given, name) ? given[name] : parameter.default;
    if (!isValid(parameter, value)) throw invalidValue(owner, name, parameter, value);
    values[name] = value;
  }
  return Object.freeze(values) as ValuesOf<P>;
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
): ParameterValue {
  if (!Object.hasOwn(parameters, name)) throw unknownParameter(owner, parameters, name);
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

function readNumber(unit: string, text: string): number {
  const bare = text.endsWith(unit) ? text.slice(0, -unit.length).trim() : text;
  return bare === '' ? Number.NaN : Number(bare);
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

function unknownParameter(owner: string, parameters: ParameterSet, name: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: `a parameter of ${owner}`,
    subject: 'a parameter name',
    received: `"${name}"`,
    remedy: suggestName(name, Object.keys(parameters)),
  });
}

function invalidValue(owner: string, name: string, parameter: Parameter, value: unknown): Fault {
  return new Fault({
    kind: 'usage',
    expected: describeRange(parameter),
    subject: `${name} of ${owner}`,
    received: typeof value === 'string' ? `"${value}"` : String(value),
    remedy: `The default is ${parameter.default}; "tenter effects ${owner}" lists them all.`,
  });
}
