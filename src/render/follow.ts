import { addImage, planFollow, weighOwn } from '../composite/index.ts';
import type { Band } from '../effect/effect.ts';
import { type AnyLayer, type PlaneName, reuseLayer } from '../effect/layer.ts';
import type { Grid } from '../repeat/grid.ts';

/**
 * Paints a band of one tile of a reflected layout so that the texture follows the artwork: the
 * effect paints it, and beyond each mirror line near the band its images as well.
 *
 * @param store Memory for the images, from the call before.
 * @returns Memory for the next call.
 */
export function paintFollowing(
  grid: Grid,
  band: Band,
  planes: readonly PlaneName[],
  layer: AnyLayer,
  store: AnyLayer,
  paint: (band: Band, layer: AnyLayer) => void,
): AnyLayer {
  paint(band, layer);
  const plan = planFollow(grid, band);
  if (plan.images.length === 0) return store;
  let painted = store;
  weighOwn(layer, plan);
  for (const image of plan.images) {
    painted = reuseLayer(painted, planes, image.band.width, image.band.height);
    paint(image.band, painted);
    addImage(layer, image, painted);
  }
  return painted;
}
