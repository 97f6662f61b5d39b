import type { Light } from '../composite/light.ts';
import type { Grid } from '../repeat/grid.ts';
import type { Patch } from '../repeat/patch.ts';
import type { KeptLayer, PlanesWish } from './kept-planes.ts';
import type { Prepared, PrepareOrder } from './orders.ts';

/** A layer on loan from a keeper. */
export interface LentLayer extends KeptLayer {
  /** Gives it back; call it once. @param isPainted Whether all of it has been painted now. */
  end(isPainted: boolean): void;
}

/** A step over a frame: equal ones paint the same layer. */
export interface LayerPlace extends PlanesWish {
  readonly order: PrepareOrder;
  readonly grid: Grid;
  /** True where the mirror lines of the layout shape the layer as well. */
  readonly follows: boolean;
  /** Where it has been lit. */
  readonly light?: Light;
  /** True where its heights are kept besides the light on them, for a later step to read. */
  readonly keepsRelief: boolean;
  /** What of the plane it holds, where that is not the whole frame. */
  readonly patch?: Patch;
}

/** Keeps what effects made for renders that share it: models, and layers as they were painted. */
export interface TextureKeeper {
  /** What an equal order came to, or will come to; none where it has to be made. */
  findPrepared(order: PrepareOrder): Promise<Prepared> | undefined;
  keepPrepared(order: PrepareOrder, prepared: Promise<Prepared>): void;
  /**
   * A layer to lay or to fill; none where it is not worth keeping, or there is no room.
   *
   * @param mayWait Whether to wait for one that another render is just filling. Whoever is filling one
   *   itself must not: two renders could wait for each other.
   */
  lendLayer(place: LayerPlace, mayWait: boolean): Promise<LentLayer | undefined>;
}
