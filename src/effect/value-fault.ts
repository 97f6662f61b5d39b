import { Fault } from '../fault.ts';
import { nearestName } from '../nearest.ts';
import { describeLength, describeNumber, describeRange } from './describe-range.ts';
import type { ColoursParameter, NumbersParameter, Parameter, TextParameter } from './parameter.ts';
import { readPictureValue } from './picture-value.ts';
import { itemsOf, readNumber, readValue } from './read-value.ts';
import { fitsPattern, lengthOf, longestBeginning } from './text-pattern.ts';
import { endsOf, isHex, isValid, isWithin, spokenValue, writtenValue } from './value.ts';

/** A value as it came, and how its user would write it. */
export interface GivenValue {
  /** Of the effect, for messages. */
  readonly owner: string;
  readonly name: string;
  readonly value: unknown;
  /** What was written where a value is written as text; a value of a file where absent. */
  readonly written?: string;
}

/** The Fault (usage) for a value that the parameter does not take: which item of a list, and what to write instead. */
export function invalidValue(parameter: Parameter, given: GivenValue): Fault {
  const { owner, name, value, written } = given;
  const wrong = isList(parameter) && written !== '' ? wrongOfList(parameter, value, written) : undefined;
  const whole = { expected: describeRange(parameter), of: '', received: shown(written ?? value) };
  const { expected, of, received } = wrong ?? whole;
  const usual = `The default is ${spokenValue(parameter.default)}; "tenter effects ${owner}" lists them all.`;
  return new Fault({
    kind: 'usage',
    expected,
    subject: `${of}${name} of ${owner}`,
    received,
    remedy: `${adviceFor(parameter, given, wrong?.advice)}${usual}`,
  });
}

interface Wrong {
  readonly expected: string;
  /** `number 2 of `, from 1. */
  readonly of: string;
  readonly received: string;
  readonly advice?: string;
}

type ListParameter = NumbersParameter | ColoursParameter;

function isList(parameter: Parameter): parameter is ListParameter {
  return parameter.kind === 'numbers' || parameter.kind === 'colours';
}

/** The first item that is wrong, or that there are too few or too many; nothing where it is no list at all. */
function wrongOfList(parameter: ListParameter, value: unknown, written?: string): Wrong | undefined {
  if (!Array.isArray(value)) return undefined;
  const takes = (item: unknown) => (parameter.kind === 'numbers' ? isWithin(parameter, item) : isHex(item));
  const index = value.findIndex((item) => !takes(item));
  const isRead = written === undefined || !Number.isNaN(value[index]);
  if (index >= 0) return wrongItem(parameter, isRead ? value[index] : itemsOf(written)[index], index);
  return { expected: describeLength(parameter), of: '', received: String(value.length) };
}

function wrongItem(parameter: ListParameter, item: unknown, index: number): Wrong {
  const received = shown(item);
  if (parameter.kind === 'colours') {
    const meant = colourMeant(item);
    const expected = 'a colour written #rrggbb';
    return { expected, of: `colour ${index + 1} of `, received, advice: meant && `Write "${meant}" there. ` };
  }
  const of = `number ${index + 1} of `;
  return { expected: describeNumber(parameter), of, received, advice: nearestNumber(parameter, item) };
}

function nearestNumber(range: NumbersParameter, item: unknown): string | undefined {
  const read = typeof item === 'string' ? readNumber(range.unit, item) : item;
  if (typeof read !== 'number' || Number.isNaN(read)) return undefined;
  if (isWithin(range, read)) return `Write ${read} there. `;
  const [min, max] = endsOf(range);
  const near = Math.min(max, Math.max(min, range.whole ? Math.round(read) : read));
  return `The nearest is ${near}. `;
}

/** How it should be written, where it is plain what is meant. */
function adviceFor(parameter: Parameter, given: GivenValue, advice = ''): string {
  const { value, written } = given;
  if (isList(parameter)) return listMeant(parameter, value, written) ?? advice;
  const text = written ?? value;
  return typeof text === 'string' ? oneMeant(parameter, text) : '';
}

function oneMeant(parameter: Exclude<Parameter, ListParameter>, text: string): string {
  switch (parameter.kind) {
    case 'number': {
      const number = readNumber(parameter.unit, text);
      return isValid(parameter, number) ? `Write ${number}. ` : '';
    }
    case 'choice': {
      const near = nearestName(text.trim(), parameter.options);
      return near ? `Did you mean "${near}"? ` : '';
    }
    case 'colour': {
      const meant = colourMeant(text);
      return meant ? `Write "${meant}". ` : '';
    }
    case 'text':
      return textMeant(parameter, text);
    case 'picture':
      return pictureMeant(text);
    case 'switch':
      return '';
  }
}

/** A list that was written as a text or a single value, or with other signs between its items. */
function listMeant(
  parameter: ListParameter,
  value: unknown,
  written: string | undefined,
): string | undefined {
  const text = written ?? (Array.isArray(value) ? undefined : String(value));
  if (text === undefined) return undefined;
  const bare = text.replace(/[[\]()"']/g, ' ').trim();
  const ways = [itemsOf(bare), bare.split(/[\s,;|/+]+/)];
  for (const items of ways) {
    const meant = readValue(parameter, items.map((item) => colourMeant(item) ?? item).join(','));
    if (!isValid(parameter, meant)) continue;
    return written === undefined
      ? `Write ${JSON.stringify(meant).replaceAll(',', ', ')}. `
      : `Write "${writtenValue(meant)}": commas between, and nothing else. `;
  }
  return undefined;
}

/** `#a02` and `aa0022` are colours to whoever writes them. */
function colourMeant(value: unknown): string | undefined {
  if (typeof value !== 'string') return undefined;
  const digits = /^#?([0-9a-f]{6}|[0-9a-f]{3})$/i.exec(value.trim())?.[1];
  if (digits === undefined || isHex(value)) return undefined;
  return `#${digits.length === 6 ? digits : [...digits].map((digit) => digit + digit).join('')}`;
}

/** The text with its capitals and spaces mended, or as much of its beginning as would do. */
function textMeant({ pattern, longest }: TextParameter, value: string): string {
  const tidy = value.trim().replace(/\s+/g, ' ');
  const ways = [tidy, tidy.toUpperCase(), tidy.toLowerCase()];
  const meant = ways.find((way) => fitsPattern(way, pattern, longest));
  if (meant !== undefined) return `Write "${meant}". `;
  const length = lengthOf(value);
  if (length > longest) return `It has ${length} characters. `;
  const begun = longestBeginning(value, pattern);
  return begun === '' ? '' : `"${begun}" would do; what follows it does not. `;
}

/** A size behind a path that is none, in the words of whoever reads sizes. */
function pictureMeant(text: string): string {
  if (text.trim() === '') return 'Give the path of a file. ';
  try {
    readPictureValue(text);
    return '';
  } catch (error) {
    return Fault.is(error) ? `Of what stands behind the @: ${error.remedy} ` : '';
  }
}

const MOST_SHOWN = 120;

function shown(value: unknown): string {
  if (Array.isArray(value)) return value.length ? `[${value.map(shown).join(', ')}]` : 'an empty list';
  if (typeof value !== 'string')
    return value !== null && typeof value === 'object' ? 'an object' : String(value);
  return `"${value.length > MOST_SHOWN ? `${value.slice(0, MOST_SHOWN)}...` : value}"`;
}
