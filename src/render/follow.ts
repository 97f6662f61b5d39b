import { addImage, copyPart, planFollow, putPart, weighOwn } from '../composite/index.ts';
import type { Band } from '../effect/effect.ts';
import { type AnyLayer, type PlaneName, reuseLayer } from '../effect/layer.ts';
import type { Grid } from '../repeat/grid.ts';
import { modulo } from '../repeat/lattice.ts';
import { reflectionAt } from '../repeat/unfold.ts';

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
  const { tileWidth, tileHeight } = grid;
  if (isInside(band, grid)) {
    paintInTile(grid, band, planes, layer, below, stores, paint);
    return;
  }
  for (const down of stretches(band.y, band.height, tileHeight)) {
    for (const across of stretches(band.x, band.width, tileWidth)) {
      const { flipX, flipY } = reflectionAt(grid.repeat.layout, modulo(across.cell, 2), modulo(down.cell, 2));
      const { count: width } = across;
      const { count: height } = down;
      const x = flipX ? tileWidth - across.inside - width : across.inside;
      const y = flipY ? tileHeight - down.inside - height : down.inside;
      const part = { left: across.from - band.x, top: down.from - band.y, width, height, flipX, flipY };
      stores.cell = reuseLayer(stores.cell, planes, width, height);
      const folded = Object.freeze({ ...band, x, y, width, height });
      const belowCell = below && copyPart(below, part);
      paintInTile(grid, folded, planes, stores.cell, belowCell, stores, paint);
      putPart(stores.cell, layer, part);
    }
  }
}

function isInside({ x, y, width, height }: Band, { tileWidth, tileHeight }: Grid): boolean {
  return x >= 0 && y >= 0 && x + width <= tileWidth && y + height <= tileHeight;
}

/** Pixels in one copy of the tile, along one axis. */
interface Stretch {
  readonly from: number;
  readonly count: number;
  /** Which copy. */
  readonly cell: number;
  /** The first pixel, counted from the copy's edge. */
  readonly inside: number;
}

function stretches(start: number, count: number, size: number): Stretch[] {
  const found: Stretch[] = [];
  for (let from = start; from < start + count; ) {
    const cell = Math.floor(from / size);
    const end = Math.min(start + count, (cell + 1) * size);
    found.push({ from, count: end - from, cell, inside: from - cell * size });
    from = end;
  }
  return found;
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
