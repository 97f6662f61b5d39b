import { readFile } from 'node:fs/promises';
import type { ZodType } from 'zod';
import { Fault } from '../fault.ts';

/**
 * Reads a JSON file and checks its shape.
 *
 * @param what What the file should be, for messages, e.g. `a preset`.
 * @throws Fault (input) where the file is missing, is no JSON, or breaks the schema; all breaks are listed.
 */
export async function readJsonFile<T>(path: string, what: string, schema: ZodType<T>): Promise<T> {
  const text = await readText(path, what);
  return checkShape(parseJson(text, path, what), path, what, schema);
}

/** Checks an already parsed value the same way. */
export function checkShape<T>(value: unknown, subject: string, what: string, schema: ZodType<T>): T {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const faults = result.error.issues.map(
    ({ path, message }) => `${path.join('.') || 'the whole'}: ${message}`,
  );
  throw new Fault({
    kind: 'input',
    expected: `${what} as its schema in presets/ says`,
    subject,
    received: faults.join('; '),
    remedy: 'Mend what is named and run again.',
  });
}

async function readText(path: string, what: string): Promise<string> {
  try {
    return await readFile(path, 'utf8');
  } catch (cause) {
    const missing = (cause as NodeJS.ErrnoException).code === 'ENOENT';
    throw new Fault({
      kind: 'input',
      expected: `${what} (a JSON file)`,
      subject: path,
      received: missing ? 'no such file' : (cause as Error).message,
      remedy: 'Check the path.',
      cause,
    });
  }
}

function parseJson(text: string, path: string, what: string): unknown {
  try {
    return JSON.parse(text);
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
}

/** Node names the position in characters; people look for lines. */
function lineOf(text: string, message: string): string {
  const position = /position (\d+)/.exec(message)?.[1];
  if (position === undefined || message.includes('line ')) return '';
  return ` (line ${text.slice(0, Number(position)).split('\n').length})`;
}
