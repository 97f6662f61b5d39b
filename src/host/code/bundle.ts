import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import type { BuildFailure, Message } from 'esbuild';
import { Fault } from '../../fault.ts';
import { reasonOf } from '../../picture/faults.ts';
import { openRegularFile } from '../../picture/regular-file.ts';
import { packageVersion, publicEntry } from './root.ts';

/** A module with all it imports, as one text. */
export interface Bundle {
  readonly code: string;
  /** The files it was made of, but for those of installed packages and of the host. */
  readonly files: readonly string[];
  /** SHA-256 of all files it was made of, those of installed packages too, but for the host's own. */
  readonly contentHash: string;
}

/**
 * Compiles a TypeScript or JavaScript module and all it imports into one module text; none of it is run.
 * "tenter" is this host's own public entry, so a plugin folder needs no installed copy of it, and one
 * that has another version is given this one.
 *
 * @throws Fault (effect) with file, line and excerpt: code that does not compile, a package that is not
 *   there, a name given twice in one object.
 */
export async function bundlePlugin(entry: string): Promise<Bundle> {
  const folder = dirname(entry);
  await requireFile(entry);
  try {
    // Loaded by those alone who have sources to compile.
    const { build } = await import('esbuild');
    const { outputFiles, warnings, metafile } = await build({
      entryPoints: [entry],
      absWorkingDir: folder,
      bundle: true,
      write: false,
      metafile: true,
      format: 'esm',
      platform: 'node',
      target: 'node20',
      sourcemap: 'inline',
      sourcesContent: false,
      // Sources are then named by their whole path in a stack trace, wherever the bundle lies.
      sourceRoot: `${folder}/`,
      logLevel: 'silent',
      alias: { tenter: publicEntry },
    });
    const twice = warnings.find(({ id }) => id === 'duplicate-object-key');
    if (twice) throw duplicateFault(entry, twice);
    const files = Object.keys(metafile.inputs).map((file) => resolve(folder, file));
    const contentHash = await hashFiles(files.filter((file) => !file.startsWith(hostFolder)));
    return { code: outputFiles[0].text, files: files.filter(isAuthors), contentHash };
  } catch (error) {
    if (Fault.is(error)) throw error;
    throw compileFault(entry, (error as BuildFailure).errors ?? [], error);
  }
}

/** The compiler itself would wait for a pipe, or read a device for ever. */
async function requireFile(entry: string): Promise<void> {
  try {
    await (await openRegularFile(entry)).file.close();
  } catch (cause) {
    throw new Fault({
      kind: 'input',
      expected: 'a module of a plugin',
      subject: entry,
      received: reasonOf(cause),
      remedy: 'Check the path.',
      cause,
    });
  }
}

/** The code of a bundle alone, for the host's own threads. */
export async function bundleModule(entry: string): Promise<string> {
  return (await bundlePlugin(entry)).code;
}

async function hashFiles(files: readonly string[]): Promise<string> {
  const hash = createHash('sha256');
  for (const file of [...files].sort()) {
    const one = createHash('sha256').update(await readFile(file));
    hash.update(`${one.digest('hex')} ${file}\n`);
  }
  return hash.digest('hex');
}

const hostFolder = dirname(publicEntry);

function isAuthors(file: string): boolean {
  return !file.startsWith(hostFolder) && !/[\\/]node_modules[\\/]/.test(file);
}

function compileFault(entry: string, messages: readonly Message[], cause: unknown): Fault {
  const first = messages[0];
  const fault = (expected: string, received: string, remedy: string) =>
    new Fault({ kind: 'effect', expected, subject: entry, received, remedy, details: placeOf(first), cause });
  if (!first) return fault('a module that compiles', String(cause), 'Mend it and run again.');
  const missing = /^Could not resolve "(.+)"/.exec(first.text)?.[1];
  if (missing !== undefined) {
    const received = `"${missing}", which is not there, ${excerpt(first)}`;
    return isBare(missing)
      ? fault('packages that are installed', received, installRemedy(missing))
      : fault('files that are there', received, 'Mend the path, or add the file.');
  }
  const strange = /^No matching export in ".*" for import "(.+)"/.exec(first.text)?.[1];
  if (strange !== undefined) {
    const remedy = `Mend the name; if it should come from "tenter", this host is tenter ${packageVersion} and the plugin may want a newer one.`;
    return fault('imports that exist', `"${strange}", which is not exported, ${excerpt(first)}`, remedy);
  }
  const more = messages.length > 1 ? `; and ${messages.length - 1} more` : '';
  return fault('a module that compiles', `${first.text} ${excerpt(first)}${more}`, 'Mend that line.');
}

function installRemedy(name: string): string {
  if (name.startsWith('tenter/')) return 'An effect imports nothing of the host but "tenter".';
  const root = name.split('/', name.startsWith('@') ? 2 : 1).join('/');
  return `Run "npm install ${root}" in the plugin's folder, or take the import out.`;
}

function duplicateFault(entry: string, twice: Message): Fault {
  const name = /"(.+)"/.exec(twice.text)?.[1] ?? twice.text;
  const before = twice.notes.find(({ location }) => location)?.location;
  return new Fault({
    kind: 'effect',
    expected: 'every name once in an object',
    subject: entry,
    received: `"${name}" twice, ${excerpt(twice)}${before ? ` and before that in line ${before.line}` : ''}`,
    remedy: 'The first would be lost without a word: rename one, or take it out.',
    details: placeOf(twice),
  });
}

function isBare(specifier: string): boolean {
  return !/^(\.|\/|[A-Za-z]:)/.test(specifier);
}

/** `in index.ts, line 3: "const a = ;"` */
function excerpt({ location }: Message): string {
  return location ? `in ${location.file}, line ${location.line}: "${location.lineText.trim()}"` : '';
}

function placeOf(message: Message | undefined): Record<string, unknown> | undefined {
  const at = message?.location;
  return at ? { file: at.file, line: at.line, column: at.column + 1, excerpt: at.lineText } : undefined;
}
