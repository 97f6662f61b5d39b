import { getNodeValue, type Node, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser';
import type { ZodType } from 'zod';
import { Fault } from '../../fault.ts';
import { type FileKind, Findings, wordsOfPlace } from './findings.ts';
import { MOST_DEPTH, tooDeepAt } from './json-depth.ts';
import { shapeFaults } from './shape-faults.ts';
import { readTextFile } from './text-file.ts';

/** So many are told; a value with more has one cause for most of them. */
const MOST_TOLD = 40;

/** What a JSON file should be. */
export interface JsonKind<T> extends FileKind {
  readonly schema: ZodType<T>;
  /** What to do where there is no such file: a whole sentence. */
  readonly missing?: string;
  /** What another file of ours is, by what it holds, where it was given by mistake. */
  readonly mistaken?: (value: unknown) => Mistaken | undefined;
}

/** A file of another kind than was asked for. */
export interface Mistaken {
  /** E.g. `a preset of linen-weave`. */
  readonly received: string;
  /** A whole sentence. */
  readonly remedy: string;
}

/** A JSON file whose shape is right. What it names has still to be looked up. */
export interface ReadJson<T> {
  readonly value: T;
  readonly text: string;
  /** For whatever else turns out to be wrong with it. */
  readonly findings: Findings;
}

/**
 * The one way to read a JSON file of the user's: comments and trailing commas are allowed.
 *
 * @throws Fault (input) where it is missing, is of another kind, or is not of the right shape; every fault
 *   is listed with its line.
 */
export async function readJsonFile<T>(file: string, kind: JsonKind<T>): Promise<ReadJson<T>> {
  const text = await readTextFile(file, { expected: `${kind.what} (a JSON file)`, remedy: kind.missing });
  const { tree, findings } = parseJson(file, text, kind);
  const value = tree && getNodeValue(tree);
  const mistaken = kind.mistaken?.(value);
  if (mistaken) throw new Fault({ kind: 'input', expected: kind.what, subject: file, ...mistaken });
  const parsed = kind.schema.safeParse(value, { reportInput: true });
  if (!parsed.success) {
    for (const { place, words, key } of shapeFaults(parsed.error, kind.schema)) {
      findings.add(place, words, key);
    }
  }
  findings.throwIfAny();
  return { value: parsed.data!, text, findings };
}

/** Checks an already parsed value the same way; nobody knows its lines. */
export function checkShape<T>(value: unknown, subject: string, what: string, schema: ZodType<T>): T {
  const result = schema.safeParse(value, { reportInput: true });
  if (result.success) return result.data;
  const told = shapeFaults(result.error, schema)
    .slice(0, MOST_TOLD)
    .map(({ place, key, words }) => `${wordsOfPlace(key === undefined ? place : [...place, key])}: ${words}`);
  const remedy = 'Mend what is named and run again.';
  throw new Fault({ kind: 'input', expected: what, subject, received: told.join('; '), remedy });
}

function parseJson(file: string, text: string, kind: FileKind): { tree?: Node; findings: Findings } {
  const deep = tooDeepAt(text);
  if (deep !== undefined) {
    const shallow = new Findings(file, text, undefined, kind);
    shallow.addAt(deep, 'the JSON itself', `brackets more than ${MOST_DEPTH} deep`);
    shallow.throwIfAny();
  }
  const errors: ParseError[] = [];
  const tree = parseTree(text, errors, { allowTrailingComma: true });
  const findings = new Findings(file, text, tree, kind);
  for (const { error, offset } of errors) {
    findings.addAt(
      offset,
      'the JSON itself',
      `${wordsOfCode(printParseErrorCode(error))}, near "${excerpt(text, offset)}"`,
    );
  }
  findings.throwIfAny();
  for (const { offset, value } of repeatedKeys(tree)) {
    findings.addAt(offset, value, 'it stands here twice; only one would count');
  }
  for (const offset of prototypeKeys(tree)) findings.addAt(offset, '__proto__', 'no such property');
  return { tree, findings };
}

function repeatedKeys(node: Node | undefined): { offset: number; value: string }[] {
  if (!node?.children) return [];
  const seen = new Set<string>();
  const repeated = node.children.flatMap((child) => repeatedKeys(child));
  if (node.type !== 'object') return repeated;
  for (const { children, offset } of node.children) {
    const value = String(children?.[0].value);
    if (seen.has(value)) repeated.push({ offset, value });
    seen.add(value);
  }
  return repeated;
}

/** As keys they would be taken for the prototype further on, and so be passed over. */
function prototypeKeys(node: Node | undefined): number[] {
  const inner = node?.children?.flatMap(prototypeKeys) ?? [];
  return node?.type === 'property' && node.children?.[0].value === '__proto__'
    ? [node.offset, ...inner]
    : inner;
}

/** `CommaExpected` -> `comma expected`. */
function wordsOfCode(code: string): string {
  return code.replaceAll(/(?<=[a-z])[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).toLowerCase();
}

function excerpt(text: string, offset: number): string {
  return text.slice(offset, offset + 24).split('\n')[0];
}

/** True for an object with a property of that name. */
export function isObjectWith(value: unknown, name: string): boolean {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, name);
}
