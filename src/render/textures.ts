import type { Band } from '../effect/effect.ts';
import { type AnyLayer, PLANE_CHANNELS, type PlaneName } from '../effect/layer.ts';
import type { Grid } from '../repeat/grid.ts';
import type { Prepared, PrepareOrder } from './orders.ts';
import type { Space } from './space.ts';

/** The planes of a step over a whole frame, in memory that all threads see. */
export type KeptPlanes = { readonly [Name in PlaneName]?: Float32Array };

/** How a step uses kept planes: it paints as ever and fills them, or lays them without painting. */
export interface KeptLayer {
  readonly planes: KeptPlanes;
  readonly isPainted: boolean;
}

/** A layer on loan from a keeper. */
export interface LentLayer extends KeptLayer {
  /** Gives it back; call it once. @param isPainted Whether all of it has been painted now. */
  end(isPainted: boolean): void;
}

/** A step over a frame: equal ones paint the same layer. */
export interface LayerPlace {
  readonly order: PrepareOrder;
  readonly planes: readonly PlaneName[];
  readonly grid: Grid;
  readonly space: Space;
  /** Pixels of the frame. */
  readonly width: number;
  readonly height: number;
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

/** Bytes that the planes of a place take. */
export function layerBytes({
  planes,
  width,
  height,
}: Pick<LayerPlace, 'planes' | 'width' | 'height'>): number {
  return planes.reduce((sum, name) => sum + 4 * PLANE_CHANNELS[name] * width * height, 0);
}

/** Planes of a place, in memory that `block` gives by the byte. */
export function openPlanes(
  { planes, width, height }: Pick<LayerPlace, 'planes' | 'width' | 'height'>,
  block: (bytes: number) => SharedArrayBuffer,
): KeptPlanes {
  const made: { [Name in PlaneName]?: Float32Array } = {};
  for (const name of planes) made[name] = new Float32Array(block(4 * PLANE_CHANNELS[name] * width * height));
  return made;
}

/** A band of kept planes, as wide as they are: a view, nothing is copied. */
export function keptBand(planes: KeptPlanes, { y, width, height }: Band): AnyLayer {
  const views: { [Name in PlaneName]?: Float32Array } = {};
  for (const [name, plane] of Object.entries(planes) as [PlaneName, Float32Array][]) {
    const row = width * PLANE_CHANNELS[name];
    views[name] = plane.subarray(y * row, (y + height) * row);
  }
  return { width, height, ...views };
}

/** Puts a painted band into kept planes. */
export function keepBand(planes: KeptPlanes, band: Band, layer: AnyLayer): void {
  const views = keptBand(planes, band);
  for (const name of Object.keys(planes) as PlaneName[]) views[name]!.set(layer[name]!);
}
