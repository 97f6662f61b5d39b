import type { Size } from '../../repeat/length.ts';

/**
 * A picture that is to be made to close over a layout. `POST api/close`; answered by the `OpenedTile` that was made of
 * it, which is opened beside the other and somewhat smaller.
 */
export interface CloseOrder {
  /** The id of an artwork that was opened. */
  readonly tile: string;
  readonly layout: string;
  /** mm, of the picture as it is. */
  readonly size: Size;
}
