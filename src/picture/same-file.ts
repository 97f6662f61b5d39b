import { stat } from 'node:fs/promises';
import { Fault } from '../fault.ts';

/**
 * Checks, before any work is done, that an output is none of the files it is made from: replacing it
 * would lose the artwork. Told by the file itself, so that links of either kind are seen through.
 *
 * @param inputs What is not there is passed over; it is missed when it is read.
 * @throws Fault (output) that names the input.
 */
export async function refuseInputs(out: string, inputs: Iterable<string>): Promise<void> {
  const target = await identityOf(out);
  if (target === undefined) return;
  for (const input of new Set(inputs)) {
    if ((await identityOf(input)) !== target) continue;
    throw new Fault({
      kind: 'output',
      expected: 'a file other than those the result is made from',
      subject: out,
      received: input === out ? 'one of them' : `another name of ${input}`,
      remedy: 'Nothing was written. Give another name.',
      saying: `${out} is one of the files that the result is made from${input === out ? '' : `: another name of ${input}`}.`,
    });
  }
}

/** Device and number of a file; 64 bits, for some systems use all of them. */
async function identityOf(path: string): Promise<string | undefined> {
  const found = await stat(path, { bigint: true }).catch(() => undefined);
  return found && `${found.dev}:${found.ino}`;
}
