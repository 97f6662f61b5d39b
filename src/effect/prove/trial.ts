import { fitGrid, type Grid } from '../../repeat/grid.ts';
import { parseLayout } from '../../repeat/layout.ts';
import { formatDensity, formatSize } from '../../repeat/length.ts';
import type { Quality } from '../effect.ts';
import type { ParameterValue } from '../parameter.ts';
import { spokenValue } from '../value.ts';
import type { ProofArtwork } from './proof-artwork.ts';
import { listedSeed } from './seed-texts.ts';

/** One setting that an effect is tried under. Plain data: enough to make it happen again. */
export interface Trial {
  /** As `parseLayout` reads it; straight, drop or brick. */
  readonly layout: string;
  /** mm of the box. */
  readonly width: number;
  /** mm of the box. */
  readonly height: number;
  readonly pixelsPerMm: number;
  readonly seed: string;
  readonly quality: Quality;
  /** `nothing` leaves an effect that reads on bare ground, `extremes` on all that planes may hold; else it is waves. */
  readonly below?: 'nothing' | 'extremes';
  /** What an effect that reads the artwork is given; motifs at odd places where absent. */
  readonly artwork?: ProofArtwork;
  /** Those that are not at their defaults. */
  readonly parameters: Readonly<Record<string, ParameterValue>>;
}

/** Where a check has no reason to try another one: a half-drop, of a size no grid of mm divides evenly. */
export const HOME: Trial = {
  layout: 'drop:1/2',
  width: 31,
  height: 23.5,
  pixelsPerMm: 8,
  seed: 'prove',
  quality: 'finished',
  parameters: {},
};

/** The grid of a trial: its size is kept, and its pixels are rounded to whole ones as the host rounds them. */
export function gridOfTrial({ layout, width, height, pixelsPerMm }: Trial): Grid {
  return fitGrid({ layout: parseLayout(layout), width, height }, pixelsPerMm);
}

/** A trial in words. */
export function describeTrial({
  layout,
  pixelsPerMm,
  seed,
  quality,
  below,
  artwork,
  parameters,
  ...size
}: Trial): string {
  const values = Object.entries(parameters).map(([name, value]) => `${name}=${spokenValue(value)}`);
  const set = values.length ? values.join(', ') : 'all parameters at their defaults';
  const worked = quality === 'sketch' ? ', as a sketch' : '';
  const bare = below ? `, ${below} below` : '';
  const under = artwork ? `, over ${artwork} artwork` : '';
  return `${set}; seed ${listedSeed(seed)}; ${layout}, ${formatSize(size)} at ${formatDensity(pixelsPerMm)}${worked}${bare}${under}`;
}
