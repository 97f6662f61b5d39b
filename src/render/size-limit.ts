import { Fault } from '../fault.ts';
import type { Grid } from '../repeat/grid.ts';
import { formatDensity, formatSize } from '../repeat/length.ts';

/** A wall of 2.5 x 2.5 m at 300 dpi; more bytes than this makes no engine holds in one picture. */
export const MOST_PIXELS = 1e9;

/**
 * Checks that a render has no more pixels than one picture may have.
 *
 * @throws Fault (usage) with the size and the density that fit.
 */
export function requireRoom({ repeat, box, width, height, mmPerPixelX, mmPerPixelY }: Grid): void {
  const pixels = width * height;
  if (pixels <= MOST_PIXELS) return;
  const share = Math.sqrt(MOST_PIXELS / pixels);
  const size = { width: roundDown(repeat.width * share), height: roundDown(repeat.height * share) };
  const dpi = roundDown(25.4 * Math.sqrt(MOST_PIXELS / (box.width * box.height)));
  const density = formatDensity(1 / Math.sqrt(mmPerPixelX * mmPerPixelY));
  throw new Fault({
    kind: 'usage',
    expected: `at most ${MOST_PIXELS / 1e6} megapixels`,
    subject: `${formatSize(repeat)} at ${density}`,
    received: `${width} x ${height} px (${Math.round(pixels / 1e6)} megapixels)`,
    remedy: `What fits: ${formatSize(size)} at that density, or that size at ${dpi} dpi.`,
    details: { width, height, maxPixels: MOST_PIXELS, fittingSize: size, fittingDpi: dpi },
  });
}

/** To three figures, so that it fits for certain. */
function roundDown(value: number): number {
  const step = 10 ** (Math.floor(Math.log10(value)) - 2);
  return Number((Math.floor(value / step) * step).toPrecision(3));
}
