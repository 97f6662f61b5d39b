import { readTileMask } from '../../../host/mask-pictures.ts';
import type { RenderStep } from '../../../render/step.ts';
import type { Grid } from '../../../repeat/grid.ts';
import { OPENED, RESIST, type Resist } from '../../words/work.ts';
import type { Artworks } from '../opened/artworks.ts';
import { paintedResist } from './painted-resist.ts';

/** Where the samples of masks come from that are no files a recipe could name. */
export interface MaskSources {
  readonly resists: Readonly<Record<string, Resist>>;
  readonly artworks: Artworks;
}

/**
 * The samples of every step's mask picture on the pixels of a tile, where it has one.
 *
 * @throws Fault (usage) for one that was never opened; Fault (input) for one of another shape than the tile.
 */
export function maskSamples(
  steps: readonly Pick<RenderStep, 'mask'>[],
  sources: MaskSources,
  grid: Grid,
): Promise<(Uint8Array | undefined)[]> {
  return Promise.all(steps.map(({ mask }) => mask?.picture && samplesOf(mask.picture, sources, grid))).then(
    (found) => found.map((samples) => samples || undefined),
  );
}

async function samplesOf(
  picture: string,
  { resists, artworks }: MaskSources,
  grid: Grid,
): Promise<Uint8Array> {
  if (picture.startsWith(RESIST)) return paintedResist(resists, picture.slice(RESIST.length), grid);
  return readTileMask(artworks.pathOf(picture.slice(OPENED.length)), grid);
}
