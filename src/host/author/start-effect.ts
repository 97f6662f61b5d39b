import { existsSync } from 'node:fs';
import {
  chmod,
  cp,
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  realpath,
  rename,
  rm,
  rmdir,
  symlink,
  writeFile,
} from 'node:fs/promises';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { Fault } from '../../fault.ts';
import { makeFolder } from '../../picture/make-folder.ts';
import { isBuilt, packageRoot } from '../code/root.ts';
import { keepAgreement } from '../plugins/consent.ts';

export interface StartRequest {
  /** Of the effect, and of its folder. */
  readonly name: string;
  /** The folder that gets the new one; made where it is not there. */
  readonly parent: string;
  /** True for an npm package of its own. */
  readonly asPackage?: boolean;
  /** Names that are given away already. */
  readonly taken: readonly string[];
}

export interface StartReport {
  readonly folder: string;
  readonly files: readonly string[];
  /** What the user should know besides. */
  readonly notes: readonly string[];
}

/** What the effect of the template is called. */
const TEMPLATE_NAME = 'petal-fall';

/** What a package has besides, or instead; npm would leave a .gitignore out of this one. */
const PACKAGE_FILES = [
  ['package.json', 'package.json'],
  ['README.md', 'README.md'],
  ['gitignore', '.gitignore'],
] as const;

const TEMPLATE = join(packageRoot, isBuilt ? 'dist/start' : 'src/host/author/start');

/**
 * Makes a new effect in a folder of its own: the effect, a test, a preset, settings for the editor and
 * a README; for a package one for those who install it. The folder appears when all of it is written.
 *
 * @throws Fault (usage) for a name that is none or is taken; Fault (output) for a folder that has things
 *   in it or cannot be written.
 */
export async function startEffect({ name, parent, asPackage, taken }: StartRequest): Promise<StartReport> {
  checkName(name, taken);
  const folder = join(resolve(parent), name);
  await refuseFilled(folder);
  try {
    await makeFolder(dirname(folder));
    const beside = await mkdtemp(join(dirname(folder), `.${name}-`));
    try {
      await fillFolder(beside, folder, name, asPackage ?? false);
      // A temporary folder is the user's alone; the one it becomes is a folder like any other.
      await chmod(beside, 0o777 & ~process.umask());
      if (existsSync(folder)) await rmdir(folder);
      await rename(beside, folder);
    } catch (error) {
      await rm(beside, { recursive: true, force: true });
      throw error;
    }
  } catch (cause) {
    const received = Fault.is(cause) ? cause.received : (cause as Error).message;
    throw unwritable(folder, received, 'Choose another with --in.', cause);
  }
  return { folder, files: await filesOf(folder), notes: await agreeTo(folder) };
}

function checkName(name: string, taken: readonly string[]): void {
  if (!/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/.test(name) || name.length > 64) {
    throw new Fault({
      kind: 'usage',
      expected: 'lower case words with hyphens, such as frosted-glass',
      subject: 'the name of the effect',
      received: `"${name}"`,
      remedy: 'For a recipe, end its name in .json.',
    });
  }
  if (taken.includes(name)) {
    throw new Fault({
      kind: 'usage',
      expected: 'a name of its own',
      subject: 'the effect',
      received: `"${name}", which is there already`,
      remedy: 'Choose another name; "tenter effects" lists those there are.',
      saying: `An effect or a recipe called "${name}" is there already.`,
    });
  }
}

async function refuseFilled(folder: string): Promise<void> {
  if (!existsSync(folder)) return;
  const names = await readdir(folder).catch(() => undefined);
  if (names?.length === 0) return;
  const received = names ? `one with ${names.length} things in it` : 'a file of that name';
  throw unwritable(folder, received, 'Choose another name, or another place with --in.');
}

function unwritable(folder: string, received: string, remedy: string, cause?: unknown): Fault {
  return new Fault({
    kind: 'output',
    expected: 'a new or empty folder',
    subject: folder,
    received,
    remedy,
    cause,
  });
}

/** @param beside The folder to fill; `folder` is what it will be called. */
async function fillFolder(beside: string, folder: string, name: string, asPackage: boolean): Promise<void> {
  await cp(join(TEMPLATE, 'effect'), beside, { recursive: true });
  if (asPackage) {
    for (const [file, name] of PACKAGE_FILES)
      await cp(join(TEMPLATE, 'package', file), join(beside, name), { force: true });
  }
  const host = relative(folder, packageRoot).split(sep).join('/');
  for (const file of await filesOf(beside)) {
    const path = join(beside, file);
    const text = await readFile(path, 'utf8');
    const named = text.replaceAll(TEMPLATE_NAME, name).replace('file:../tenter', `file:${host}`);
    if (named !== text) await writeFile(path, named);
  }
  if (!canResolveHost(folder)) await linkHost(beside);
}

/** True where Node and editors find "tenter" from the new folder without help: it is installed above. */
function canResolveHost(folder: string): boolean {
  for (let above = dirname(folder); above !== dirname(above); above = dirname(above)) {
    if (existsSync(join(above, 'node_modules/tenter/package.json'))) return true;
  }
  return false;
}

/** Wherever the host is installed, editors, tests and type checks then find it by its name. */
async function linkHost(folder: string): Promise<void> {
  await mkdir(join(folder, 'node_modules'));
  await symlink(packageRoot, join(folder, 'node_modules/tenter'), 'junction');
}

async function filesOf(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)))
    .sort();
}

/** The code in it comes from the host itself, so there is nobody else to trust. */
async function agreeTo(folder: string): Promise<string[]> {
  try {
    await keepAgreement([{ id: await realpath(folder) }]);
    return [];
  } catch (error) {
    if (Fault.is(error)) return [`you will be asked whether it may run: ${error.message}`];
    throw error;
  }
}
