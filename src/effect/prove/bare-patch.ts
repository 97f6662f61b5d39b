import { channelsOf, deviationOf } from './channels.ts';
import { Failed } from './failed.ts';
import type { Patches } from './large.ts';
import { showLayer, sideBySide } from './picture.ts';

/** Of the least contrast that a patch of a small box has: a patch of a large one with less is bare. */
const BARE = 1 / 8;
/** Of two dozen: a sound texture may have a few that no patch of the small box happens to be like. */
const LEAST_BARE = 4;

/**
 * Looks for patches of a large box with next to nothing in them, where all patches of a small one have something.
 *
 * @throws Failed
 */
export function tryBare(small: Patches, large: Patches): void {
  const before = contrastsOf(small);
  const after = contrastsOf(large);
  for (const [name, { contrasts, least }] of Object.entries(before)) {
    const [poorest, barest] = [Math.min(...contrasts), Math.min(...after[name].contrasts)];
    const count = after[name].contrasts.filter((contrast) => contrast < BARE * poorest).length;
    if (poorest < least || count < LEAST_BARE) continue;
    const bare = large.layers[after[name].contrasts.indexOf(barest)];
    const { width } = small.sample.trial;
    throw new Failed(large.sample.trial, {
      expected: `every patch of ${name} to have something in it, as in a box of ${width} mm, where their contrast is ${poorest.toPrecision(3)} at least`,
      received: `a contrast of ${barest.toPrecision(3)} in ${count} of ${large.layers.length} patches strewn over the box: a region of it is bare`,
      remedy:
        'Look for a count, a table or an index that a larger box exceeds: a Uint16Array counts to 65,535 and then begins again at 0; a Uint32Array reaches further.',
      picture: sideBySide(
        [showLayer(small.layers[0]), showLayer(bare)],
        'A patch of a small box, and one of the large box.',
      ),
    });
  }
}

function contrastsOf({
  layers,
}: Patches): Readonly<Record<string, { readonly contrasts: readonly number[]; readonly least: number }>> {
  const channels = layers.map(channelsOf);
  return Object.fromEntries(
    channels[0].map(({ name, least }, index) => [
      name,
      { least, contrasts: channels.map((all) => deviationOf(all[index].values)) },
    ]),
  );
}
