import { dirname, resolve } from 'node:path';
import type { Findings } from '../../host/files/findings.ts';
import { readJsonFile } from '../../host/files/json-file.ts';
import { sha256 } from '../disk/hash.ts';
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

const COLLECTION = {
  what: 'a collection',
  schema: collectionSchema,
  remedy: 'Nothing was made. presets/collection.schema.json says what may stand where.',
  missing: 'Check the path; "tenter collect start FOLDER" writes one from a folder of pictures.',
};

/**
 * Reads a collection file: JSON, with comments and trailing commas allowed.
 *
 * @throws Fault (input) where it is missing, or is not of the right shape; every fault is listed with its line.
 */
export async function readCollection(file: string): Promise<ReadCollection> {
  const { value, text, findings } = await readJsonFile(file, COLLECTION);
  const path = resolve(file);
  return { path, folder: dirname(path), hash: sha256(text), entry: value, findings };
}
