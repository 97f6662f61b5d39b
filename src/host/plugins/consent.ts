import { chmod, writeFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { dirname, join, sep } from 'node:path';
import { z } from 'zod';
import { Fault } from '../../fault.ts';
import { writeBeside } from '../../picture/beside.ts';
import { makeFolder } from '../../picture/make-folder.ts';
import { checkShape } from '../files/json-file.ts';
import { readTextFile } from '../files/text-file.ts';
import type { PluginPlace } from './places.ts';

/** How the user's agreement to run plugins is come by. */
export interface ConsentOptions {
  /** True where the caller vouches for all places: nothing is asked and nothing kept. */
  readonly trust?: boolean;
  /** Asks the user; without it a new place is refused. */
  readonly ask?: (places: readonly PluginPlace[]) => Promise<boolean>;
}

/** Set to 1, it says for scripts what `--trust` says. */
export const TRUST_VARIABLE = 'TENTER_TRUST';

/** What anybody who is about to load a plugin has to know. */
export const PLUGIN_RIGHTS =
  'A plugin is a program: it runs with all your rights and can read, change and send your files.';

const agreementsSchema = z.object({
  places: z.array(z.object({ place: z.string(), agreed: z.string() })),
});
const LIST = {
  expected: 'the list of agreed plugins',
  remedy: 'Delete that file; you will be asked again.',
};
type Agreements = z.infer<typeof agreementsSchema>;

/** Where agreements are kept: the user's configuration folder (XDG Base Directory Specification). */
export function agreementsFile(environment = process.env): string {
  const home = environment.XDG_CONFIG_HOME || environment.APPDATA || join(homedir(), '.config');
  return join(home, 'tenter', 'agreed-plugins.json');
}

/**
 * Makes sure that the user has agreed to run plugins from these places, before any of their code runs.
 * An agreement holds for a folder and what is in it, or for the
 * code of one version of a package where it lies: changed code is asked for anew.
 *
 * @throws Fault (usage) where the user has not; Fault (output) where the answer cannot be kept.
 */
export async function requireConsent(
  places: readonly PluginPlace[],
  { trust, ask }: ConsentOptions = {},
): Promise<void> {
  if (places.length === 0 || trust || process.env[TRUST_VARIABLE] === '1') return;
  const agreed = (await readAgreements()).places.map(({ place }) => place);
  const fresh = places.filter(({ id }) => !agreed.some((place) => covers(place, id)));
  if (fresh.length === 0) return;
  if (!ask) throw refusal(fresh, 'none so far');
  if (!(await ask(fresh))) throw refusal(fresh, 'no');
  await keepAgreement(fresh);
}

/** Keeps the user's agreement to run plugins from these places. */
export async function keepAgreement(places: readonly Pick<PluginPlace, 'id'>[]): Promise<void> {
  const before = await readAgreements();
  const agreed = new Date().toISOString();
  const added = places.map(({ id }) => ({ place: id, agreed }));
  const kept = before.places.filter(({ place }) => !added.some((one) => one.place === place));
  await writeAgreements({ places: [...kept, ...added] });
}

function covers(agreed: string, id: string): boolean {
  return id === agreed || id.startsWith(agreed.endsWith(sep) ? agreed : agreed + sep);
}

function refusal(places: readonly PluginPlace[], answer: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'your agreement to run plugins',
    subject: places.map(({ id }) => id).join(' and '),
    received: answer,
    remedy: `${PLUGIN_RIGHTS} If you trust who wrote it, run this once on a terminal and answer yes; in a script add --trust or set ${TRUST_VARIABLE}=1.`,
    details: { places: places.map(({ id }) => id) },
  });
}

async function readAgreements(): Promise<Agreements> {
  const path = agreementsFile();
  try {
    const text = await readTextFile(path, LIST);
    return checkShape(JSON.parse(text), path, LIST.expected, agreementsSchema);
  } catch (cause) {
    const isMissing = Fault.is(cause) && (cause.cause as NodeJS.ErrnoException)?.code === 'ENOENT';
    if (isMissing) return { places: [] };
    const { message } = cause as Error;
    throw new Fault({
      kind: 'input',
      ...LIST,
      subject: path,
      received: Fault.is(cause) ? cause.received : message,
      cause,
    });
  }
}

async function writeAgreements(agreements: Agreements): Promise<void> {
  const path = agreementsFile();
  try {
    await makeFolder(dirname(path), 0o700);
    await writeBeside(path, { overwrite: true }, async (beside) => {
      await chmod(beside, 0o600);
      await writeFile(beside, `${JSON.stringify(agreements, null, 2)}\n`);
    });
  } catch (cause) {
    throw new Fault({
      kind: 'output',
      expected: 'a place to keep your answer',
      subject: path,
      received: Fault.is(cause) ? cause.received : (cause as Error).message,
      remedy: `Make that folder writable, or run with --trust.`,
      cause,
    });
  }
}
