import { Fault } from '../fault.ts';
import { fitGrid, type Grid, gridAtDensity, gridOfPixels, pixelStep } from '../repeat/grid.ts';
import { type Layout, STRAIGHT } from '../repeat/layout.ts';
import { formatDensity, formatSize, type Size, trimNumber } from '../repeat/length.ts';
import { nearestMultiple } from '../repeat/multiple.ts';
import { requireRoom } from './size-limit.ts';

/** A tile without its pixels. */
export interface TileFacts {
  readonly layout: Layout;
  /** Of its picture, px. */
  readonly width: number;
  readonly height: number;
  /** mm of one tile. */
  readonly size: Size;
  /** Take the nearest pixels that fit the layout, instead of refusing. */
  readonly fit?: boolean;
}

/**
 * The grid that a tile is rendered on; it has other pixels than the tile's picture where a density is
 * asked, or where the layout asks for the nearest that fit.
 *
 * @param density Pixels per mm of the result; the picture's own where absent.
 * @throws Fault (usage) where size and picture differ in shape, the repeat misses whole pixels, or
 *   the density makes more than `MOST_PIXELS` of it.
 */
export function gridOfTile({ layout, width, height, size, fit }: TileFacts, density?: number): Grid {
  const repeat = { layout, ...size };
  if (density !== undefined) {
    gridOfPixels({ ...repeat, layout: STRAIGHT }, width, height);
    const grid = fit ? fitGrid(repeat, density) : gridAtDensity(repeat, density);
    requireRoom(grid);
    return grid;
  }
  if (!fit) return gridOfPixels(repeat, width, height);
  const { across, down } = pixelStep(layout);
  return gridOfPixels(repeat, nearestMultiple(width, across), nearestMultiple(height, down));
}

/** What tells how large a tile is. */
export interface SizeClues {
  /** mm, as the user says. */
  readonly size?: Size;
  /** Pixels per mm, as the user says. */
  readonly density?: number;
  /** Pixels per mm, as the file states. */
  readonly fileDensity?: number;
}

/** Where a size came from. */
export type SizeSource = 'given' | 'given density' | 'file';

export interface TileSize {
  readonly size: Size;
  readonly from: SizeSource;
}

/** Beyond this a stated density and the tile's own cannot mean the same repeat. */
const DENSITY_TOLERANCE = 0.005;

/**
 * The size of a tile: the one given, or what follows from a density. None where nothing tells it.
 *
 * @throws Fault (usage) where the size and the density given disagree.
 */
export function sizeOfTile(
  picture: { readonly width: number; readonly height: number },
  { size, density, fileDensity }: SizeClues,
): TileSize | undefined {
  if (size && density) checkAgreement(picture, size, density);
  if (size) return { size, from: 'given' };
  const used = density ?? fileDensity;
  if (used === undefined) return undefined;
  const { width, height } = picture;
  return {
    size: { width: width / used, height: height / used },
    from: density === undefined ? 'file' : 'given density',
  };
}

function checkAgreement(
  { width, height }: { readonly width: number; readonly height: number },
  size: Size,
  density: number,
): void {
  if (Math.abs(width / size.width / density - 1) <= DENSITY_TOLERANCE) return;
  throw new Fault({
    kind: 'usage',
    expected: `a tile of ${formatSize(size)} at ${formatDensity(density)}, ${Math.round(size.width * density)} x ${Math.round(size.height * density)} px`,
    subject: 'the tile',
    received: `${width} x ${height} px`,
    remedy: `Leave out --dpi (the tile then has ${trimNumber((width / size.width) * 25.4, 2)} dpi), or give --size ${trimNumber(width / density, 2)}x${trimNumber(height / density, 2)}mm.`,
  });
}
