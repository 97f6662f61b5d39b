import type { ZodType } from 'zod';
import { Fault } from '../../fault.ts';
import { MOST_DEPTH, tooDeepAt } from './json-depth.ts';
import { readTextFile } from './text-file.ts';

/** So many are told; a file with more has one cause for most of them. */
const MOST_TOLD = 40;

/**
 * Reads a JSON file and checks its shape.
 *
 * @param what What the file should be, for messages, e.g. `a preset`.
 * @throws Fault (input) where the file cannot be read, is no JSON, or breaks the schema; all breaks are listed.
 */
export async function readJsonFile<T>(path: string, what: string, schema: ZodType<T>): Promise<T> {
  const text = await readTextFile(path, { expected: `${what} (a JSON file)` });
  return checkShape(parseJson(text, path, what), path, what, schema);
}

/** Checks an already parsed value the same way. */
export function checkShape<T>(value: unknown, subject: string, what: string, schema: ZodType<T>): T {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const faults = result.error.issues.map(
    ({ path, message }) => `${path.join('.') || 'the whole'}: ${message}`,
  );
  throw badShape(subject, what, faults.slice(0, MOST_TOLD).join('; '));
}

function badShape(subject: string, what: string, received: string): Fault {
  return new Fault({
    kind: 'input',
    expected: `${what} as its schema in presets/ says`,
    subject,
    received,
    remedy: 'Mend what is named and run again.',
  });
}

function parseJson(text: string, path: string, what: string): unknown {
  const deep = tooDeepAt(text);
  if (deep !== undefined)
    throw badShape(path, what, `brackets more than ${MOST_DEPTH} deep${lineAt(text, deep)}`);
  let strange = false;
  try {
    // As a key it would be taken for the prototype further on, and so be passed over.
    const value = JSON.parse(text, (key, part) => {
      strange ||= key === '__proto__';
      return part;
    });
    if (!strange) return value;
  } catch (cause) {
    throw new Fault({
      kind: 'input',
      expected: `${what} (valid JSON)`,
      subject: path,
      received: `${(cause as Error).message}${lineOf(text, (cause as Error).message)}`,
      remedy: 'Mend the file and run again.',
      cause,
    });
  }
  throw badShape(path, what, '"__proto__": no such property');
}

/** Node names the position in characters; people look for lines. */
function lineOf(text: string, message: string): string {
  const position = /position (\d+)/.exec(message)?.[1];
  if (position === undefined || message.includes('line ')) return '';
  return lineAt(text, Number(position));
}

function lineAt(text: string, position: number): string {
  return ` (line ${text.slice(0, position).split('\n').length})`;
}
