import { openLight } from '../composite/index.ts';
import type { Light } from '../composite/light.ts';
import type { PlaneName, ReadablePlane } from '../effect/layer.ts';
import type { Grid } from '../repeat/grid.ts';
import { alignedPatch, grownPatch, type Patch } from '../repeat/patch.ts';

/**
 * How far from its place paint is looked for, mm, where only a patch is painted: what an effect moves farther,
 * or lets run by more than half of this, is off near the edge of the patch.
 */
const MOVED_MM = 16;
/** Px that the picture from which paint runs is laid on, so that its softer levels do not wander with the patch. */
const STEP = 64;

/** What the steps of one pass paint and read. */
export type PassPlanes = readonly {
  readonly planes: readonly PlaneName[];
  readonly reads: readonly ReadablePlane[];
}[];

/** What each pass has to paint so that the last one has all that it needs, and what of the artwork the first does. */
export interface PlannedPatches {
  readonly targets: readonly Patch[];
  readonly artwork: Patch;
}

/**
 * Plans the passes over a patch of the plane, from the last to the first: one that moves paint needs the
 * result before it on a larger patch. Fewer passes, or less that is moved, come to smaller patches.
 */
export function planPatches(
  passes: readonly PassPlanes[],
  patch: Patch,
  grid: Grid,
  light: Light,
): PlannedPatches {
  const { mmPerPixelX, mmPerPixelY } = grid;
  const reach = Math.ceil(MOVED_MM / Math.min(mmPerPixelX, mmPerPixelY));
  const targets: Patch[] = [];
  let needed = patch;
  for (const pass of passes.toReversed()) {
    targets.unshift(needed);
    if (pass.some(({ planes }) => planes.includes('shift') || planes.includes('bleed')))
      needed = alignedPatch(grownPatch(needed, reach), STEP);
  }
  // Whoever reads looks at the masks beyond its band, as far as the light on what it reads.
  const readers = passes.flat().filter(({ reads }) => reads.length > 0).length;
  const lit = readers > 0 ? openLight(light, mmPerPixelX, mmPerPixelY).margin : 0;
  return { targets, artwork: grownPatch(needed, readers * lit) };
}
