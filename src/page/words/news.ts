import type { OfferedEffect, OpenedTile } from './begin.ts';
import type { Saving } from './save.ts';

/** Lines of JSON, one a piece of news, as long as the page listens. `GET api/news`. */
export type News =
  /** Every few seconds, so that a page knows that the server lives. */
  | { readonly kind: 'here' }
  | { readonly kind: 'saving'; readonly saving: Saving }
  /** An artwork changed on disk and was read again. */
  | { readonly kind: 'tile'; readonly tile: OpenedTile }
  /** An artwork that changed can no longer be read. */
  | { readonly kind: 'tile lost'; readonly id: string; readonly message: string }
  /** A watched plugin was loaded again. */
  | { readonly kind: 'effect'; readonly offered: OfferedEffect }
  /** It could not be: the last one goes on. */
  | { readonly kind: 'effect failed'; readonly message: string };

/** Does it close? `POST api/check` with `{ tile, layout, size }`. */
export interface Closing {
  readonly grade: 'closes' | 'look' | 'open';
  readonly words: readonly string[];
  /** How soon the repeat shows, as `tenter check` says it. */
  readonly repeat: string;
}
