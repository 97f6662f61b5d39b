import { parseHex } from '../../colour/hex.ts';
import type { ParameterSet, ParameterValue } from '../../effect/parameter.ts';
import { findInk } from '../../ink/index.ts';
import { ANY_INKS, colourOfInk, type InkNames, type InksInForce } from './inks-in-force.ts';

/**
 * True for what stands in place of a colour and can only be the name of an ink. A colour that lacks its sign, such as
 * `aa0022`, is taken for the slip that it most likely is.
 */
export function isInkName(value: unknown): value is string {
  return typeof value === 'string' && /^(?!\s*#)(?!\s*([0-9a-f]{3}|[0-9a-f]{6})\s*$)\s*\S/i.test(value);
}

type Values = Readonly<Record<string, ParameterValue>>;

/**
 * The values of an effect with the names of inks in colours and lists of colours made the colours that they have.
 *
 * @param owner Whose values they are, for messages.
 * @throws Fault (usage) for a name that is not on the card in force, or where none is.
 */
export function inkedValues(
  parameters: ParameterSet,
  values: Values,
  inks: InkNames | undefined,
  owner: string,
): Record<string, ParameterValue> {
  return mapNames(parameters, values, (ink, name) => colourOfInk(inks, ink, `${name} of ${owner}`), inks);
}

/** The same with any colour in place of every name: for looking at all else while no card is at hand. */
export function withoutInkNames(parameters: ParameterSet, values: Values): Record<string, ParameterValue> {
  return inkedValues(parameters, values, ANY_INKS, 'the effect');
}

function mapNames(
  parameters: ParameterSet,
  values: Values,
  colourOf: (ink: string, name: string) => string,
  inks?: InkNames,
): Record<string, ParameterValue> {
  const isName = (value: unknown): value is string =>
    isInkName(value) ||
    (inks !== undefined && inks !== ANY_INKS && typeof value === 'string' && isOnCard(inks, value));
  const one = <T>(value: T, name: string) => (isName(value) ? colourOf(value, name) : value);
  const mapped = Object.entries(values).map(([name, value]): [string, ParameterValue] => {
    const kind = Object.hasOwn(parameters, name) ? parameters[name].kind : undefined;
    if (kind === 'colour') return [name, one(value, name)];
    if (kind !== 'colours' || !Array.isArray(value)) return [name, value];
    return [name, value.map((item) => one(item, name)) as unknown as ParameterValue];
  });
  return Object.fromEntries(mapped);
}

/** An ink may be called `bed`, which reads as a colour too; on its card the name comes first. */
function isOnCard({ card }: InksInForce, text: string): boolean {
  return findInk(card, text) >= 0;
}

/**
 * A colour as a flag or a file gives it: the name of an ink made its colour.
 *
 * @throws Fault (usage) for a name that is not on the card in force or where none is, and for what is no colour.
 */
export function inkedColour(inks: InkNames | undefined, text: string, subject: string): string {
  if (isInkName(text) || (inks && inks !== ANY_INKS && isOnCard(inks, text)))
    return colourOfInk(inks, text, subject);
  parseHex(text, subject);
  return text;
}
