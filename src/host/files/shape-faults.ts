import { type ZodError, type ZodType, z } from 'zod';
import { suggestName } from '../../nearest.ts';
import type { Place } from './findings.ts';

/** What is wrong with the shape of a value, as a person would say it. */
export interface ShapeFault {
  readonly place: Place;
  readonly words: string;
  /** Of the object at `place`, where the name of a property itself is wrong. */
  readonly key?: string;
}

type Issue = ZodError['issues'][number];

/** The faults of a value that was held against a schema with `reportInput`. */
export function shapeFaults({ issues }: ZodError, schema: ZodType): ShapeFault[] {
  return issues.flatMap((issue) => {
    const place = issue.path as (string | number)[];
    if (issue.code !== 'unrecognized_keys') return [{ place, words: wordsOf(issue) }];
    const known = keysAt(schema, place);
    return issue.keys.map((key) => ({ place, key, words: `no such property. ${suggestName(key, known)}` }));
  });
}

function wordsOf(issue: Issue): string {
  const { input } = issue;
  if (input === undefined) return 'it is missing';
  const known = issue.code === 'invalid_value' ? issue.values.map(String) : [];
  const near = typeof input === 'string' && known.length ? ` ${suggestName(input, known)}` : '';
  const told = near.startsWith(' There are') ? '' : near;
  const asMeant = hintFor(input, issue);
  return `expected ${wish(issue)} but received ${shown(input)}.${told}${asMeant}`;
}

function wish(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return TYPES[issue.expected] ?? issue.expected;
    case 'too_small':
    case 'too_big':
      return wishedAmount(issue);
    case 'invalid_value':
      return issue.values.length === 1 ? shown(issue.values[0]) : `one of ${issue.values.join(', ')}`;
    default:
      return issue.message;
  }
}

const TYPES: Readonly<Record<string, string>> = {
  string: 'a text in quotes',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list in brackets, [...],',
  object: '{...}, with names and values,',
  record: '{...}, with names and values,',
};

function wishedAmount(issue: Issue & { code: 'too_small' | 'too_big' }): string {
  const isLeast = issue.code === 'too_small';
  const limit = String(isLeast ? issue.minimum : issue.maximum);
  if (issue.origin === 'string') return isLeast ? 'a text that is not empty' : `${limit} letters at most`;
  if (issue.origin === 'array') return isLeast ? `${limit} at least` : `${limit} at most`;
  return `a number ${isLeast ? 'from' : 'up to'} ${limit}`;
}

function shown(value: unknown): string {
  if (Array.isArray(value)) return value.length ? 'a list' : 'an empty list';
  if (typeof value === 'string') return `"${value.length > 60 ? `${value.slice(0, 60)}...` : value}"`;
  if (value === null || typeof value !== 'object') return String(value);
  return Object.keys(value).length ? '{...}' : '{}';
}

/** How it should be written, where it is plain what is meant. */
function hintFor(input: unknown, issue: Issue): string {
  if (typeof input !== 'string') return '';
  const text = input.trim();
  if (issue.code === 'invalid_type' && issue.expected === 'number') {
    const percent = /^(\d+(?:\.\d+)?)\s*%$/.exec(text);
    if (percent) return ` Write ${Number(percent[1]) / 100}.`;
    if (text !== '' && Number.isFinite(Number(text))) return ` Write ${Number(text)}, without quotes.`;
  }
  const isColour = issue.code === 'invalid_format' && /^[0-9a-f]{6}$/i.test(text);
  return isColour ? ` Write "#${text}".` : '';
}

/** The properties that may stand at a place. */
function keysAt(schema: unknown, place: Place): string[] {
  let at = bare(schema);
  for (const part of place) {
    if (at instanceof z.ZodObject) at = bare(at.shape[part]);
    else if (at instanceof z.ZodArray) at = bare(at.element);
    else if (at instanceof z.ZodRecord) at = bare(at.valueType);
    else return [];
  }
  return at instanceof z.ZodObject ? Object.keys(at.shape) : [];
}

function bare(schema: unknown): unknown {
  return schema instanceof z.ZodOptional ? bare(schema.unwrap()) : schema;
}
