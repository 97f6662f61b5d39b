import type { Band } from '../effect/effect.ts';
import { type AnyLayer, PLANE_CHANNELS, type PlaneName } from '../effect/layer.ts';
import type { PixelFinder } from '../repeat/fold.ts';
import type { Patch } from '../repeat/patch.ts';
import { runsOf } from './runs.ts';

/** What planes are made for: which, over how many pixels. */
export interface PlanesWish {
  readonly planes: readonly PlaneName[];
  readonly width: number;
  readonly height: number;
}

/** The planes of a step over a whole frame, in memory that all threads see. */
export type KeptPlanes = { readonly [Name in PlaneName]?: Float32Array };

/** How a step uses kept planes: it paints as ever and fills them, or lays them without painting. */
export interface KeptLayer {
  readonly planes: KeptPlanes;
  readonly isPainted: boolean;
  /** What of the plane they hold, where that is not the whole frame. */
  readonly patch?: Patch;
}

/** Bytes that the planes of a place take. */
export function layerBytes({ planes, width, height }: PlanesWish): number {
  return planes.reduce((sum, name) => sum + 4 * PLANE_CHANNELS[name] * width * height, 0);
}

/** Planes of a place, in memory that `block` gives by the byte. */
export function openPlanes(
  { planes, width, height }: PlanesWish,
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

/** A band of planes that hold a patch around it; a view where the band is as wide. */
export function keptPart(planes: KeptPlanes, patch: Patch, band: Band): AnyLayer {
  const { x, y, width, height } = { ...band, x: band.x - patch.x, y: band.y - patch.y };
  if (width === patch.width) return keptBand(planes, { ...band, y });
  const copies: { [Name in PlaneName]?: Float32Array } = {};
  for (const [name, plane] of Object.entries(planes) as [PlaneName, Float32Array][]) {
    const channels = PLANE_CHANNELS[name];
    const copy = new Float32Array(width * height * channels);
    for (let row = 0; row < height; row++) {
      const first = ((y + row) * patch.width + x) * channels;
      copy.set(plane.subarray(first, first + width * channels), row * width * channels);
    }
    copies[name] = copy;
  }
  return { width, height, ...copies };
}

/** Any rectangle of the plane, gathered from kept planes. What points somewhere is right inside the frame alone. */
export function keptAround(planes: KeptPlanes, band: Band, find: PixelFinder): AnyLayer {
  const { width, height } = band;
  const gathered: { [Name in PlaneName]?: Float32Array } = {};
  const runs = [...runsOf(band, find)];
  for (const [name, plane] of Object.entries(planes) as [PlaneName, Float32Array][]) {
    const channels = PLANE_CHANNELS[name];
    const values = new Float32Array(width * height * channels);
    for (const { at, first, length } of runs)
      values.set(plane.subarray(first * channels, (first + length) * channels), at * channels);
    gathered[name] = values;
  }
  return { width, height, ...gathered };
}

/** Puts a painted band into kept planes. */
export function keepBand(planes: KeptPlanes, band: Band, layer: AnyLayer): void {
  const views = keptBand(planes, band);
  for (const name of Object.keys(planes) as PlaneName[]) views[name]!.set(layer[name]!);
}
