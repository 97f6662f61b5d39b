import type { ParameterValue } from '../parameter.ts';
import type { Picture, Pictures } from './alive-pictures.ts';
import { CHANNELS } from './colour-claims.ts';
import { Failed } from './failed.ts';
import type { Trial } from './trial.ts';

/** A change of the tint, in the mean of all pixels, that is large enough to be sure of. */
const LEAST = 0.01;
/** Paints mix and darken one another, but none turns its own channel into another: less than this share is no mixture. */
const MOST_OWN = 0.05;

/**
 * Where a colour is changed in one channel alone, a tint that changes in another and hardly in that one has its
 * channels exchanged.
 *
 * @param values The colour before and after.
 */
export async function tryHue(
  pictures: Pictures,
  surrounding: Trial,
  name: string,
  channel: number,
  values: readonly ParameterValue[],
): Promise<void> {
  const before = await pictures.of(surrounding, name, values[0]);
  const after = await pictures.of(surrounding, name, values[1]);
  const changes = tintChanges(before, after);
  if (!changes) return;
  const other = changes.indexOf(Math.max(...changes));
  if (changes[other] < LEAST || changes[channel] > MOST_OWN * changes[other]) return;
  const [asked, painted] = [CHANNELS[channel], CHANNELS[other]];
  throw new Failed(
    { ...surrounding, parameters: { ...surrounding.parameters, [name]: values[1] } },
    {
      expected: `${asked} of ${name} to change ${asked} of tint`,
      received: `a change of ${painted} of tint by ${share(changes[other])} in the mean, and of ${asked} by ${share(changes[channel])}`,
      remedy: `Look where the channels of "${name}" are exchanged: parseHex gives red, green and blue, in the order of tint.`,
    },
  );
}

/** How much each channel of the tint changes, in the mean of all pixels as they are seen; nothing without a tint. */
function tintChanges(before: Picture, after: Picture): number[] | undefined {
  if (before === 'refused' || after === 'refused') return undefined;
  const [first, second] = [before[0].tint, after[0].tint];
  if (!first || !second) return undefined;
  return [0, 1, 2].map((channel) => {
    let sum = 0;
    for (let at = 0; at < first.length; at += 4) {
      sum += Math.abs(second[at + channel] * second[at + 3] - first[at + channel] * first[at + 3]);
    }
    return (4 * sum) / first.length;
  });
}

function share(change: number): string {
  return String(Number(change.toPrecision(2)));
}
