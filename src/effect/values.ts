import { Fault } from '../fault.ts';
import { suggestName } from '../nearest.ts';
import type { ParameterSet, ParameterValue, ValuesOf } from './parameter.ts';
import { readValue } from './read-value.ts';
import { frozenValue, isValid } from './value.ts';
import { invalidValue } from './value-fault.ts';

/**
 * Checks given values against a parameter set and fills in the defaults.
 *
 * @param owner   Whose parameters they are, for messages, e.g. `linen-weave`.
 * @param retired What is no longer taken, and what to write instead.
 * @returns Frozen, lists too, every parameter present.
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
    values[name] = frozenValue(Object.hasOwn(given, name) ? (given[name] as ParameterValue) : usual);
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
    ...wrong.map((name) => ({
      name,
      fault: invalidValue(parameters[name], { owner, name, value: taken(name) }),
    })),
  ];
}

/**
 * Reads a value written as text, as in `--set ends=14`. A number may carry its unit, and a list has commas
 * between its items.
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
  const value = readValue(parameter, text);
  if (!isValid(parameter, value)) throw invalidValue(parameter, { owner, name, value, written: text });
  return value;
}

/**
 * Checks one value that is no text to be read, as it stands in a file.
 *
 * @throws Fault (usage) where the parameter does not take it.
 */
export function takeValue(
  owner: string,
  parameters: ParameterSet,
  name: string,
  value: unknown,
): ParameterValue {
  if (!Object.hasOwn(parameters, name)) throw unknownParameter(owner, parameters, name);
  const parameter = parameters[name];
  if (!isValid(parameter, value)) throw invalidValue(parameter, { owner, name, value });
  return frozenValue(value);
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
