import { dirname, resolve } from 'node:path';
import { getNodeValue, type Node, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser';
import type { ZodError } from 'zod';
import { MOST_DEPTH, tooDeepAt } from '../../host/files/json-depth.ts';
import { readTextFile } from '../../host/files/text-file.ts';
import { suggestName } from '../../nearest.ts';
import { sha256 } from '../disk/hash.ts';
import { Findings } from './findings.ts';
import { type CollectionFile, collectionSchema } from './schema.ts';

/** A collection file whose shape is right. What it names has still to be looked up. */
export interface ReadCollection {
  readonly path: string;
  /** What paths in it start from. */
  readonly folder: string;
  /** Of the text. */
  readonly hash: string;
  readonly entry: CollectionFile;
  /** For whatever else turns out to be wrong with it. */
  readonly findings: Findings;
}

const WISHES = {
  expected: 'a collection (a JSON file)',
  remedy: 'Check the path; "tenter collect start FOLDER" writes one from a folder of pictures.',
};

/**
 * Reads a collection file: JSON, with comments and trailing commas allowed.
 *
 * @throws Fault (input) where it is missing, or is not of the right shape; every fault is listed with its line.
 */
export async function readCollection(file: string): Promise<ReadCollection> {
  const path = resolve(file);
  const text = await readTextFile(file, WISHES);
  const deep = tooDeepAt(text);
  if (deep !== undefined) {
    const shallow = new Findings(file, text, undefined);
    shallow.addAt(deep, 'the JSON itself', `brackets more than ${MOST_DEPTH} deep`);
    shallow.throwIfAny();
  }
  const errors: ParseError[] = [];
  const tree = parseTree(text, errors, { allowTrailingComma: true });
  const findings = new Findings(file, text, tree);
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
  const parsed = collectionSchema.safeParse(tree && getNodeValue(tree));
  if (!parsed.success) addIssues(findings, parsed.error);
  findings.throwIfAny();
  return { path, folder: dirname(path), hash: sha256(text), entry: parsed.data!, findings };
}

function addIssues(findings: Findings, { issues }: ZodError): void {
  for (const issue of issues) {
    const place = issue.path as (string | number)[];
    if (issue.code === 'unrecognized_keys') {
      const known = knownKeys(place);
      for (const key of issue.keys) findings.add(place, `no such property. ${suggestName(key, known)}`, key);
    } else {
      findings.add(place, `expected ${issue.message.replace(/^Invalid input: expected /, '')}`);
    }
  }
}

/** The properties that may stand at a place. */
function knownKeys(place: readonly (string | number)[]): string[] {
  const { tiles, recipes, output } = collectionSchema.shape;
  const shapes: Record<string, object> = {
    tiles: tiles.element.shape,
    recipes: recipes.element.shape,
    output: output.unwrap().shape,
  };
  const deepest = place.length <= 2 ? shapes[String(place[0])] : undefined;
  return Object.keys(deepest ?? collectionSchema.shape);
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
