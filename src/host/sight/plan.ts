import { fitGrid, type Grid, gridOfPixels, pixelStep } from '../../repeat/grid.ts';
import { boxCount, unfoldedLayout } from '../../repeat/lattice.ts';
import type { Layout } from '../../repeat/layout.ts';
import { MM_PER_INCH } from '../../repeat/length.ts';
import type { Patch } from '../../repeat/patch.ts';
import type { PlanePart, SightOrder } from './order.ts';

/** Px of a whole period: as many as a large screen shows of it. */
const MOST_OF_PERIOD = 2.5e6;
/** Px of a part: more than any screen has. */
const MOST_OF_PART = 10e6;
/** Px per mm that is painted at most where the tile itself is not finer: print. */
const PRINT = 300 / MM_PER_INCH;
/** A density so near the tile's own is meant to be it. */
const OWN_SHARE = 0.002;
/** Of a pixel: less is the rounding of mm. */
const ROUNDING = 1e-3;

/** On what a look is painted. */
export interface LookPlan {
  readonly grid: Grid;
  /** None for a whole period. */
  readonly patch?: Patch;
  readonly part: PlanePart;
  readonly layout: Layout;
  readonly isCoarse: boolean;
}

type Wish = Pick<SightOrder, 'artwork' | 'layout' | 'size' | 'density' | 'part'>;

/**
 * Plans a look: pixels that fit the layout, at the density asked or the most that is worth it.
 */
export function planLook(order: Wish): LookPlan {
  const { layout, size, density, part, artwork } = order;
  const own = artwork && artwork.width / size.width;
  const finest = Math.min(density, Math.max(own ?? 0, PRINT));
  const { across, down } = boxCount(layout);
  const squareMm = part ? part.width * part.height : size.width * across * size.height * down;
  const most = Math.sqrt((part ? MOST_OF_PART : MOST_OF_PERIOD) / squareMm);
  const grid = gridNear(order, Math.min(finest, most), own);
  const patch = part && patchOf(part, grid);
  return {
    grid,
    patch,
    part: partOf(patch ?? { x: 0, y: 0, width: grid.width, height: grid.height }, grid),
    layout: unfoldedLayout(layout),
    isCoarse: 1 / grid.mmPerPixelX < density * (1 - 0.02),
  };
}

/** At the tile's own density its own pixels, where they fit the layout. */
function gridNear({ artwork, layout, size }: Wish, density: number, own: number | undefined): Grid {
  const repeat = { layout, ...size };
  if (artwork && own && Math.abs(density / own - 1) <= OWN_SHARE) {
    const step = pixelStep(layout);
    const { width, height } = artwork;
    const isSquare = Math.abs(size.height / height / (size.width / width) - 1) < 0.01;
    if (isSquare && width % step.across === 0 && height % step.down === 0)
      return gridOfPixels(repeat, width, height);
  }
  return fitGrid(repeat, density);
}

/** All pixels that show something of a part. */
function patchOf({ left, top, width, height }: PlanePart, { mmPerPixelX, mmPerPixelY }: Grid): Patch {
  const [x, columns] = spanOf(left / mmPerPixelX, (left + width) / mmPerPixelX);
  const [y, rows] = spanOf(top / mmPerPixelY, (top + height) / mmPerPixelY);
  return { x, y, width: columns, height: rows };
}

function spanOf(start: number, end: number): [first: number, count: number] {
  const first = Math.floor(start + ROUNDING);
  return [first, Math.max(1, Math.ceil(end - ROUNDING) - first)];
}

function partOf({ x, y, width, height }: Patch, { mmPerPixelX, mmPerPixelY }: Grid): PlanePart {
  return {
    left: x * mmPerPixelX,
    top: y * mmPerPixelY,
    width: width * mmPerPixelX,
    height: height * mmPerPixelY,
  };
}
