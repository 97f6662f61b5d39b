import { HINTS } from '../effect/hints.ts';
import type { RenderReport } from '../host/lay-tile.ts';

/** What prove would say to do about a render that does not close, or holds numbers that are none. */
export function hintsFor({
  seams,
  ranges,
  warnings,
}: Pick<RenderReport, 'seams' | 'ranges' | 'warnings'>): string[] {
  // A tile that does not close by itself is no fault of an effect.
  const isTiles = warnings.some((warning) => warning.startsWith('the tile itself'));
  const isStrange = ranges.some((range) => range?.some(({ strange }) => strange > 0));
  return [
    ...(seams.grade === 'open' && !isTiles ? [HINTS.notClosed] : []),
    ...(isStrange ? [HINTS.notFinite] : []),
  ];
}
