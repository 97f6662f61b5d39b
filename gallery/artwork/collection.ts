import type { Artwork, Ink } from './artwork.ts';
import { CARDOON } from './cardoon.ts';
import { CLOCHES } from './cloches.ts';
import { ESPALIER } from './espalier.ts';
import { MACKEREL } from './mackerel.ts';
import { NASTURTIUM } from './nasturtium.ts';
import { PALETTE } from './palette.ts';
import { PARTERRE } from './parterre.ts';
import { WINDFALL } from './windfall.ts';

/**
 * The studio's brief for the demo collection, "The Sea Wall Garden".
 *
 * A kitchen garden stands behind a sea wall. Whoever keeps it grows cardoons for show and quinces for the
 * pantry, forces seedlings under glass in March, trains pears on the south side, has laid one bed out like a
 * carpet, buys mackerel from the boats at the end of the lane, and lets nasturtiums run over the wall. Seven
 * designs for cloth and wall, cut from paper: flat shapes, no outline, no shading, eight inks for all of them
 * and at most seven to a design. They are to look printed on linen in a dining room and on papered boards in
 * a passage.
 */
export const COLLECTION: readonly Artwork[] = [
  WINDFALL,
  CARDOON,
  CLOCHES,
  PARTERRE,
  MACKEREL,
  ESPALIER,
  NASTURTIUM,
];

/** Every ink of a design, its ground first: as many screens as the mill would cut with the ground blotched. */
export function screensOf({ ground, inks }: Artwork): Ink[] {
  return [...PALETTE.filter(({ hex }) => hex === ground), ...inks];
}
