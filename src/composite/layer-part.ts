import { type AnyLayer, PLANE_CHANNELS, type PlaneName, reuseLayer } from '../effect/layer.ts';

/** A rectangle of a layer's pixels, and how it is turned over. */
export interface LayerPart {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly flipX?: boolean;
  readonly flipY?: boolean;
}

/** The planes that a layer has. */
export function planesOf(layer: AnyLayer): PlaneName[] {
  return (Object.keys(PLANE_CHANNELS) as PlaneName[]).filter((name) => layer[name] !== undefined);
}

/**
 * Takes away the same number of pixels on all sides of a layer, within its own memory.
 *
 * @returns A layer of what is left; the one given holds nothing more that is of use.
 */
export function trimLayer(layer: AnyLayer, margin: number): AnyLayer {
  if (margin === 0) return layer;
  const width = layer.width - 2 * margin;
  const height = layer.height - 2 * margin;
  const trimmed: { [Name in PlaneName]?: Float32Array } = {};
  for (const name of planesOf(layer)) {
    const plane = layer[name]!;
    const channels = PLANE_CHANNELS[name];
    for (let row = 0; row < height; row++) {
      const from = ((row + margin) * layer.width + margin) * channels;
      plane.copyWithin(row * width * channels, from, from + width * channels);
    }
    trimmed[name] = plane.subarray(0, width * height * channels);
  }
  return { width, height, ...trimmed };
}

/** A part of a layer by itself, in the memory of `store` where it fits. */
export function copyPart(layer: AnyLayer, part: LayerPart, store: AnyLayer = NOTHING): AnyLayer {
  const made = reuseLayer(store, planesOf(layer), part.width, part.height);
  for (let row = 0; row < part.height; row++)
    for (let column = 0; column < part.width; column++)
      copyPixel(layer, pixelOf(part, layer.width, column, row), made, row * part.width + column, part);
  return made;
}

/** Puts a layer into a part of another that has the same planes, turned over as the part says. */
export function putPart(from: AnyLayer, layer: AnyLayer, part: LayerPart): void {
  for (let row = 0; row < part.height; row++)
    for (let column = 0; column < part.width; column++)
      copyPixel(from, row * part.width + column, layer, pixelOf(part, layer.width, column, row), part);
}

const NOTHING: AnyLayer = { width: 0, height: 0 };

function pixelOf(
  { left, top, width, height, flipX, flipY }: LayerPart,
  stride: number,
  x: number,
  y: number,
) {
  return (top + (flipY ? height - 1 - y : y)) * stride + left + (flipX ? width - 1 - x : x);
}

/** What points somewhere points the other way in a mirror. */
function copyPixel(
  from: AnyLayer,
  at: number,
  to: AnyLayer,
  place: number,
  { flipX, flipY }: LayerPart,
): void {
  if (to.load) to.load[place] = from.load![at];
  if (to.parting)
    for (let channel = 0; channel < 3; channel++)
      to.parting[place * 3 + channel] = from.parting![at * 3 + channel];
  if (to.shade) to.shade[place] = from.shade![at];
  if (to.bleed) to.bleed[place] = from.bleed![at];
  if (to.relief) to.relief[place] = from.relief![at];
  if (to.shift) {
    to.shift[place * 2] = flipX ? -from.shift![at * 2] : from.shift![at * 2];
    to.shift[place * 2 + 1] = flipY ? -from.shift![at * 2 + 1] : from.shift![at * 2 + 1];
  }
  if (to.tint)
    for (let channel = 0; channel < 4; channel++) to.tint[place * 4 + channel] = from.tint![at * 4 + channel];
}
