import type { Frame } from '../colour/frame.ts';
import { Fault } from '../fault.ts';
import { type Grid, gridOfPixels, pixelStep } from '../repeat/grid.ts';
import type { Layout } from '../repeat/layout.ts';
import { formatDensity, formatSize, type Size, trimNumber } from '../repeat/length.ts';
import { fitFrame } from './fit.ts';

/** What is known of a tile besides its pixels. */
export interface TileFacts {
  readonly layout: Layout;
  /** mm of one tile. */
  readonly size?: Size;
  /** Pixels per mm, asked by the user. */
  readonly density?: number;
  /** Pixels per mm, as the file states. */
  readonly fileDensity?: number;
  /** Resample to the nearest pixels that fit the layout, instead of refusing. */
  readonly fit?: boolean;
}

/** Beyond this a stated density and the tile's own cannot mean the same repeat. */
const DENSITY_TOLERANCE = 0.005;

/**
 * The grid of a tile: its size in mm is the one given, or follows from a density.
 *
 * @returns The grid, the tile (resampled along one side where `fit` had to), and notes for the user.
 * @throws Fault (usage) where nothing tells the size, size and density disagree, or the layout misses whole pixels.
 */
export function gridOfTile(tile: Frame, facts: TileFacts): { grid: Grid; tile: Frame; notes: string[] } {
  const size = facts.size ?? sizeFromDensity(tile, facts.density ?? facts.fileDensity);
  if (facts.size && facts.density) checkAgreement(tile, facts.size, facts.density);
  const repeat = { layout: facts.layout, ...size };
  const step = pixelStep(facts.layout);
  const misses = tile.width % step.across !== 0 || tile.height % step.down !== 0;
  if (!misses || !facts.fit) return { grid: gridOfPixels(repeat, tile.width, tile.height), tile, notes: [] };
  const fitted = fitFrame(tile, facts.layout);
  const note = `the tile was resampled from ${tile.width} x ${tile.height} to ${fitted.width} x ${fitted.height} px to fit the layout`;
  return { grid: gridOfPixels(repeat, fitted.width, fitted.height), tile: fitted, notes: [note] };
}

function sizeFromDensity({ width, height }: Frame, density: number | undefined): Size {
  if (density) return { width: width / density, height: height / density };
  throw new Fault({
    kind: 'usage',
    expected: 'the size of the repeat',
    subject: '--size',
    received: 'nothing, and the tile states no density',
    remedy: 'Add for example --size 640x640mm or --dpi 300.',
  });
}

function checkAgreement({ width, height }: Frame, size: Size, density: number): void {
  if (Math.abs(width / size.width / density - 1) <= DENSITY_TOLERANCE) return;
  throw new Fault({
    kind: 'usage',
    expected: `a tile of ${formatSize(size)} at ${formatDensity(density)}, ${Math.round(size.width * density)} x ${Math.round(size.height * density)} px`,
    subject: 'the tile',
    received: `${width} x ${height} px`,
    remedy: `Leave out --dpi (the tile then has ${trimNumber((width / size.width) * 25.4, 2)} dpi), or give --size ${trimNumber(width / density, 2)}x${trimNumber(height / density, 2)}mm.`,
  });
}
