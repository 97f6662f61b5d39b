import { realpath, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { Fault } from '../fault.ts';

/**
 * Checks, before any work is done, that an output is none of the files it is made from: replacing it
 * would lose the artwork. Told by the file itself, so that links of either kind are seen through.
 *
 * @param inputs What is not there is passed over; it is missed when it is read.
 * @throws Fault (output) that names the input.
 */
export async function refuseInputs(out: string, inputs: Iterable<string>): Promise<void> {
  await refuseInputsAmong([out], inputs);
}

/** The same for many outputs, each of which may replace none of the inputs. */
export async function refuseInputsAmong(outs: Iterable<string>, inputs: Iterable<string>): Promise<void> {
  const known = new Map<string, string>();
  for (const input of new Set(inputs)) {
    const identity = await identityOf(input);
    if (identity !== undefined && !known.has(identity)) known.set(identity, input);
  }
  for (const out of outs) {
    const input = known.get((await identityOf(out)) ?? '');
    if (input === undefined) continue;
    throw new Fault({
      kind: 'output',
      expected: 'a file other than those the result is made from',
      subject: out,
      received: resolve(input) === resolve(out) ? 'one of them' : `another name of ${input}`,
      remedy: 'Nothing was written. Give another name.',
      saying: `${out} is one of the files that the result is made from${input === out ? '' : `: another name of ${input}`}.`,
    });
  }
}

/**
 * Checks, before any work is done, that several outputs are files of their own: the last would replace
 * the others. They need not be there yet; links on the way to them are seen through.
 *
 * @throws Fault (usage).
 */
export async function refuseTwins(outs: readonly string[]): Promise<void> {
  const places = new Set<string>();
  for (const out of outs) {
    const place = await placeOf(out);
    if (places.has(place)) {
      throw new Fault({
        kind: 'usage',
        expected: 'a file of its own',
        subject: out,
        received: 'one that something else is to be written to',
        remedy: 'Nothing was written. Give each its own name.',
      });
    }
    places.add(place);
  }
}

async function placeOf(path: string): Promise<string> {
  const whole = resolve(path);
  const inFolder = async () => join(await realpath(dirname(whole)), basename(whole));
  return realpath(whole)
    .catch(inFolder)
    .catch(() => whole);
}

/** Device and number of a file; 64 bits, for some systems use all of them. */
async function identityOf(path: string): Promise<string | undefined> {
  const found = await stat(path, { bigint: true }).catch(() => undefined);
  return found && `${found.dev}:${found.ino}`;
}
