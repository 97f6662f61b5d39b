import { Fault } from '../fault.ts';
import { boxCount, type Lattice, latticeOf, unfoldedLayout } from './lattice.ts';
import { formatLayout, type Layout, STRAIGHT } from './layout.ts';
import { formatDensity, formatSize, type Size, trimNumber } from './length.ts';
import { nearestMultiple } from './multiple.ts';
import { type Box, boxOf, type Repeat } from './repeat.ts';

/** A repeat at a pixel density. Every lattice vector is a whole number of pixels. */
export interface Grid {
  /** The layout, and the size of one tile in mm. */
  readonly repeat: Repeat;
  /** The unfolded box in mm. */
  readonly box: Box;
  /** Pixels across one tile. */
  readonly tileWidth: number;
  /** Pixels down one tile. */
  readonly tileHeight: number;
  /** Pixels across the unfolded box; equal to the tile's where the layout does not reflect. */
  readonly width: number;
  /** Pixels down the unfolded box. */
  readonly height: number;
  /** The unfolded box's vectors in pixels: whole numbers. */
  readonly lattice: Lattice;
  /** Width of a pixel in mm. */
  readonly mmPerPixelX: number;
  /** Height of a pixel in mm. */
  readonly mmPerPixelY: number;
}

/** Less than this off a whole pixel is the rounding of a written size, not a misfit. */
const WHOLE_PIXEL_TOLERANCE = 1e-3;
/** Pixels that differ more than this in width and height mean that the size is of another picture. */
const SQUARE_PIXEL_TOLERANCE = 0.01;

/**
 * The grid of a repeat at a density.
 *
 * @param pixelsPerMm Pixels per mm.
 * @throws Fault (usage) where a lattice vector misses whole pixels; names the nearest sizes and densities that fit.
 */
export function gridAtDensity(repeat: Repeat, pixelsPerMm: number): Grid {
  const width = repeat.width * pixelsPerMm;
  const height = repeat.height * pixelsPerMm;
  if (
    isWhole(width) &&
    isWhole(height) &&
    misfitOf(repeat.layout, Math.round(width), Math.round(height)) === undefined
  ) {
    return gridOfPixels(repeat, Math.round(width), Math.round(height));
  }
  throw new Fault({
    kind: 'usage',
    expected: `whole pixels along every side of the repeat${stepNote(repeat.layout)}`,
    subject: `${formatSize(repeat)} at ${formatDensity(pixelsPerMm)} in layout ${formatLayout(repeat.layout)}`,
    received: `${trimNumber(width, 3)} x ${trimNumber(height, 3)} px`,
    remedy: `${adviceFor(repeat, pixelsPerMm)} Or add --fit to take the nearest.`,
    details: {
      nearestSizes: nearestSizes(repeat, pixelsPerMm),
      nearestDensitiesDpi: nearestDensities(repeat, pixelsPerMm).map((density) => density * 25.4),
    },
  });
}

/**
 * The grid nearest to a repeat at a density. The size in mm is kept, for the cylinder or the
 * drop on the wall is fixed; the pixel count is rounded and the density follows.
 */
export function fitGrid(repeat: Repeat, pixelsPerMm: number): Grid {
  const step = pixelStep(repeat.layout);
  const width = nearestMultiple(repeat.width * pixelsPerMm, step.across);
  const height = nearestMultiple(repeat.height * pixelsPerMm, step.down);
  return gridOfPixels(repeat, width, height);
}

/**
 * The grid of a repeat whose tile already has pixels.
 *
 * @param tileWidth  Whole pixels of one tile, at least 1.
 * @param tileHeight Whole pixels of one tile, at least 1.
 * @throws Fault (usage) where the drop or brick offset misses whole pixels, or the pixels are far from square.
 */
export function gridOfPixels(repeat: Repeat, tileWidth: number, tileHeight: number): Grid {
  const misfit = misfitOf(repeat.layout, tileWidth, tileHeight);
  if (misfit) throw misfit;
  const mmPerPixelX = repeat.width / tileWidth;
  const mmPerPixelY = repeat.height / tileHeight;
  if (Math.abs(mmPerPixelX / mmPerPixelY - 1) > squareTolerance(repeat.layout, tileWidth, tileHeight)) {
    throw notSquare(repeat, tileWidth, tileHeight);
  }
  return gridOf(repeat, tileWidth, tileHeight);
}

/**
 * The same repeat on cells of about `factor` x `factor` of a grid's pixels. It closes as that does;
 * the cells of a small tile may be far from square.
 */
export function coarserGrid({ repeat, tileWidth, tileHeight }: Grid, factor: number): Grid {
  const { across, down } = pixelStep(repeat.layout);
  return gridOf(
    repeat,
    nearestMultiple(tileWidth / factor, across),
    nearestMultiple(tileHeight / factor, down),
  );
}

/** A patch of a grid's plane as a straight tile of its own, with pixels as they are there. */
export function patchGrid(
  { mmPerPixelX, mmPerPixelY }: Grid,
  { width, height }: { readonly width: number; readonly height: number },
): Grid {
  const size = { width: width * mmPerPixelX, height: height * mmPerPixelY };
  return gridOf({ layout: STRAIGHT, ...size }, width, height);
}

function gridOf(repeat: Repeat, tileWidth: number, tileHeight: number): Grid {
  const { across, down } = boxCount(repeat.layout);
  const width = tileWidth * across;
  const height = tileHeight * down;
  return {
    repeat,
    box: boxOf(repeat),
    tileWidth,
    tileHeight,
    width,
    height,
    lattice: roundLattice(latticeOf(unfoldedLayout(repeat.layout), width, height)),
    mmPerPixelX: repeat.width / tileWidth,
    mmPerPixelY: repeat.height / tileHeight,
  };
}

/** The whole-pixel steps in which a tile's width and height may grow: q for a drop or brick of p/q. */
export function pixelStep({ kind, denominator }: Layout): { readonly across: number; readonly down: number } {
  return { across: kind === 'brick' ? denominator : 1, down: kind === 'drop' ? denominator : 1 };
}

function misfitOf(layout: Layout, width: number, height: number): Fault | undefined {
  const step = pixelStep(layout);
  if (width > 0 && height > 0 && width % step.across === 0 && height % step.down === 0) return undefined;
  const [nearWidth, nearHeight] = [nearestMultiple(width, step.across), nearestMultiple(height, step.down)];
  return new Fault({
    kind: 'usage',
    expected: `a tile whose sides are whole pixels${stepNote(layout)}`,
    subject: `layout ${formatLayout(layout)}`,
    received: `${width} x ${height} px`,
    remedy: `The nearest that fits is ${nearWidth} x ${nearHeight} px; resize the tile, or add --fit to let it be done.`,
    details: { nearestPixels: { width: nearWidth, height: nearHeight } },
  });
}

function stepNote({ kind, denominator }: Layout): string {
  if (denominator === 1) return '';
  return `, ${kind === 'drop' ? 'the height' : 'the width'} a multiple of ${denominator}`;
}

function adviceFor(repeat: Repeat, pixelsPerMm: number): string {
  const sizes = nearestSizes(repeat, pixelsPerMm).map(formatSize).join(' or ');
  const densities = nearestDensities(repeat, pixelsPerMm).map(formatDensity).join(' or ');
  const atDensity = `At ${formatDensity(pixelsPerMm)}, ${sizes} fits`;
  return densities ? `${atDensity}; at this size, ${densities} fits.` : `${atDensity}.`;
}

/** The next size below and above that is whole in pixels at this density. */
export function nearestSizes(repeat: Repeat, pixelsPerMm: number): Size[] {
  const step = pixelStep(repeat.layout);
  const sizes = [Math.floor, Math.ceil].map((round) => ({
    width: Math.max(1, round(settle(repeat.width * pixelsPerMm) / step.across)) * step.across,
    height: Math.max(1, round(settle(repeat.height * pixelsPerMm) / step.down)) * step.down,
  }));
  const unique = sizes.filter(
    (size, index) => index === 0 || size.width !== sizes[0].width || size.height !== sizes[0].height,
  );
  return unique.map(({ width, height }) => ({ width: width / pixelsPerMm, height: height / pixelsPerMm }));
}

/** The next density below and above (px per mm) at which this size is whole in pixels; empty where none is near. */
export function nearestDensities(repeat: Repeat, pixelsPerMm: number): number[] {
  const step = pixelStep(repeat.layout);
  const rows = Math.round(repeat.height * pixelsPerMm);
  const fits: number[] = [];
  for (const direction of [-1, 1]) {
    for (let offset = direction < 0 ? 0 : 1; offset <= rows; offset++) {
      const height = rows + direction * offset;
      const density = height / repeat.height;
      const width = repeat.width * density;
      if (height <= 0 || density > pixelsPerMm * 1.25 || density < pixelsPerMm * 0.8) break;
      if (!isWhole(width) || height % step.down !== 0 || Math.round(width) % step.across !== 0) continue;
      fits.push(density);
      break;
    }
  }
  return fits;
}

function notSquare(repeat: Repeat, width: number, height: number): Fault {
  return new Fault({
    kind: 'usage',
    expected: `a size in the shape of the tile (${width} x ${height} px)`,
    subject: 'the size of the repeat',
    received: formatSize(repeat),
    remedy: `The size is that of one tile: give for example ${formatSize({
      width: repeat.width,
      height: (repeat.width * height) / width,
    })}.`,
  });
}

/** Rounding the shorter side to the next step that fits is never a wrong shape. */
function squareTolerance({ denominator }: Layout, width: number, height: number): number {
  return Math.max(SQUARE_PIXEL_TOLERANCE, (1.5 * denominator) / Math.min(width, height));
}

function isWhole(value: number): boolean {
  return Math.round(value) > 0 && Math.abs(value - Math.round(value)) <= WHOLE_PIXEL_TOLERANCE;
}

function settle(value: number): number {
  return isWhole(value) ? Math.round(value) : value;
}

function roundLattice({ ax, ay, bx, by }: Lattice): Lattice {
  return { ax: Math.round(ax), ay: Math.round(ay), bx: Math.round(bx), by: Math.round(by) };
}
