import { addImage, copyPart, planFollow, putPart, weighOwn } from '../composite/index.ts';
import type { Band } from '../effect/effect.ts';
import { type AnyLayer, type PlaneName, reuseLayer } from '../effect/layer.ts';
import type { Grid } from '../repeat/grid.ts';
import { tileParts } from '../repeat/tile-parts.ts';

/**
 * Whether the texture of a reflected layout is drawn once over the whole unfolded cloth (a weave
 * does not mirror), or is reflected with the artwork and meets its mirror lines without a crease.
 */
export type Follow = 'cloth' | 'artwork';

/** Fills a neutral layer for a band. @param below What lies below it there, for an effect that reads. */
export type Paint = (band: Band, layer: AnyLayer, below?: AnyLayer) => void;

/** Memory that painting for a reflected layout uses again from band to band. */
export interface FollowStores {
  images: AnyLayer;
  cell: AnyLayer;
}

export function openStores(): FollowStores {
  const nothing = { width: 0, height: 0 };
  return { images: nothing, cell: nothing };
}

/**
 * Paints any rectangle of the plane so that the texture follows the artwork of a reflected layout. The
 * texture is worked out for the one tile and turned over with it, so that all copies have the same bits.
 */
export function paintFollowing(
  grid: Grid,
  band: Band,
  planes: readonly PlaneName[],
  layer: AnyLayer,
  below: AnyLayer | undefined,
  stores: FollowStores,
  paint: Paint,
): void {
  if (isInside(band, grid)) {
    paintInTile(grid, band, planes, layer, below, stores, paint);
    return;
  }
  for (const part of tileParts(grid, band)) {
    const { x, y, width, height } = part;
    stores.cell = reuseLayer(stores.cell, planes, width, height);
    const folded = Object.freeze({ ...band, x, y, width, height });
    const belowCell = below && copyPart(below, part);
    paintInTile(grid, folded, planes, stores.cell, belowCell, stores, paint);
    putPart(stores.cell, layer, part);
  }
}

function isInside({ x, y, width, height }: Band, { tileWidth, tileHeight }: Grid): boolean {
  return x >= 0 && y >= 0 && x + width <= tileWidth && y + height <= tileHeight;
}

/** Paints a band of one tile: the effect paints it, and beyond each mirror line near the band its images as well. */
function paintInTile(
  grid: Grid,
  band: Band,
  planes: readonly PlaneName[],
  layer: AnyLayer,
  below: AnyLayer | undefined,
  stores: FollowStores,
  paint: Paint,
): void {
  paint(band, layer, below);
  const plan = planFollow(grid, band);
  if (plan.images.length === 0) return;
  weighOwn(layer, plan);
  for (const image of plan.images) {
    const { width, height } = image.band;
    stores.images = reuseLayer(stores.images, planes, width, height);
    // The image is seen turned over, and so what lies below it is turned over for it.
    const belowImage = below && copyPart(below, { ...image, width, height });
    paint(image.band, stores.images, belowImage);
    addImage(layer, image, stores.images);
  }
}
