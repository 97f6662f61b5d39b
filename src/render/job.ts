import type { Frame } from '../colour/frame.ts';
import type { Light } from '../composite/light.ts';
import { readsArtwork } from '../effect/artwork.ts';
import type { Quality } from '../effect/effect.ts';
import type { Grid } from '../repeat/grid.ts';
import { isReflected } from '../repeat/layout.ts';
import { type ArtworkField, artworkField } from './artwork-field.ts';
import type { Follow } from './follow.ts';
import { isRaised } from './light-words.ts';
import type { Space } from './space.ts';
import type { RenderStep } from './step.ts';

export interface RenderJob {
  /** Of the tile's repeat. */
  readonly grid: Grid;
  /** The artwork tile, `grid.tileWidth` x `grid.tileHeight`; its memory is used for the result. */
  readonly tile: Frame;
  readonly steps: readonly RenderStep[];
  readonly follow: Follow;
  /** That all raised surfaces stand in; `DEFAULT_LIGHT` where absent. */
  readonly light?: Light;
  /** `finished` where absent. */
  readonly quality?: Quality;
  /** What steps that read the artwork are handed; made from the tile where absent, if there are any. */
  readonly artworkField?: ArtworkField;
}

/** The job with the artwork as its steps read it, if any of them does. */
export function withArtwork(job: RenderJob): RenderJob {
  if (job.artworkField || !isArtworkRead(job.steps)) return job;
  const { repeat, box } = job.grid;
  return { ...job, artworkField: artworkField(job.tile, repeat.layout, box) };
}

/** Whether any of these steps wants to see the artwork. */
export function isArtworkRead(steps: readonly Pick<RenderStep, 'declares'>[]): boolean {
  return steps.some(({ declares }) => readsArtwork(declares));
}

/** What a render works on. */
export interface SpaceWish {
  readonly grid: Grid;
  readonly follow: Follow;
  readonly steps: readonly Pick<RenderStep, 'declares'>[];
}

/** True where textures are reflected with the artwork. */
export function followsArtwork({ grid, follow }: Pick<SpaceWish, 'grid' | 'follow'>): boolean {
  return follow === 'artwork' && isReflected(grid.repeat.layout);
}

/** The frame that a render works on: one tile where all that is laid is reflected with it; a light does not mirror. */
export function spaceOf(wish: SpaceWish): Space {
  return followsArtwork(wish) && !isRaised(wish.steps) ? 'tile' : 'box';
}
