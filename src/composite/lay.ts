import type { BlendMode } from '../colour/blend.ts';
import type { Rgb } from '../colour/hex.ts';
import type { AnyLayer } from '../effect/layer.ts';
import { layLoad } from './load.ts';
import { layShade } from './shade.ts';
import type { Strength } from './strength.ts';
import { layTint } from './tint.ts';

/** How a layer is laid. */
export interface LayOptions {
  /** The W3C blend mode of the tint. */
  readonly blend: BlendMode;
  /** The colour of the bare paper or cloth, linear. */
  readonly paper: Rgb;
  /** Opacity times mask. */
  readonly strength: Strength;
}

/**
 * Lays a texture layer over a working band, in place: paint is thinned or piled up (load, parting), then
 * coloured over (tint), then lit (shade). The first plane of all, shift, says where the band's paint
 * is taken from, so it comes before the band exists: see `sampleShifted`.
 *
 * Strength scales each plane's departure from neutral (load' = 1 + (load - 1)k, shade' likewise,
 * tint alpha * k, shift * k); it does not mix the finished picture with the artwork. So half the
 * strength is half the texture: half as much paint moved, half as far, under a light half as
 * raking, and a moved edge moves half as far instead of being seen twice. Mixing results would
 * also need a copy of the artwork and would lift deep tones: half of an eightfold load would be a
 * grey veil over half the paint. For a tint alone the two are the same thing, as W3C defines opacity.
 *
 * @param working Linear RGBA, `4 * layer.width * layer.height` numbers.
 */
export function layLayer(working: Float32Array, layer: AnyLayer, options: LayOptions): void {
  const { blend, paper, strength } = options;
  if (strength === 0) return;
  if (layer.load) layLoad(working, layer.load, paper, strength, layer.parting);
  else if (layer.parting) layLoad(working, ones(layer), paper, strength, layer.parting);
  if (layer.tint) layTint(working, layer.tint, blend, strength);
  if (layer.shade) layShade(working, layer.shade, strength);
}

/** The load of an effect that parts hues and leaves their sum alone. */
function ones({ width, height }: AnyLayer): Float32Array {
  return new Float32Array(width * height).fill(1);
}
