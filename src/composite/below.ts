import type { AnyLayer } from '../effect/layer.ts';
import { type Strength, strengthList } from './strength.ts';

/**
 * Adds a layer to what the steps so far come to, for those that read it: heights are summed, loads and
 * shades multiplied, tints laid one over the other as W3C defines source-over, each weighed as it is laid
 * (load' = 1 + (load - 1) k, shade' likewise, relief k, alpha k).
 *
 * @param below    Gathers; only the planes that it has count.
 * @param layer    As large as `below`, or smaller by the same number of pixels on all sides.
 * @param strength Opacity times mask, of the layer's pixels.
 */
export function layBelow(below: AnyLayer, layer: AnyLayer, strength: Strength): void {
  const inset = (below.width - layer.width) / 2;
  const { list, step } = strengthList(strength);
  for (let row = 0, pixel = 0; row < layer.height; row++) {
    let to = (row + inset) * below.width + inset;
    for (let column = 0; column < layer.width; column++, pixel++, to++) {
      const strong = list[pixel * step];
      if (below.relief && layer.relief) below.relief[to] += strong * layer.relief[pixel];
      if (below.load && layer.load) below.load[to] *= 1 + (layer.load[pixel] - 1) * strong;
      if (below.shade && layer.shade) below.shade[to] *= 1 + (layer.shade[pixel] - 1) * strong;
      if (below.tint && layer.tint) cover(below.tint, to * 4, layer.tint, pixel * 4, strong);
    }
  }
}

/** Source-over of colours that are not premultiplied. */
function cover(below: Float32Array, to: number, tint: Float32Array, from: number, strong: number): void {
  const alpha = tint[from + 3] * strong;
  const union = alpha + below[to + 3] * (1 - alpha);
  if (!(union > 0)) return;
  const part = alpha / union;
  for (let channel = 0; channel < 3; channel++)
    below[to + channel] += (tint[from + channel] - below[to + channel]) * part;
  below[to + 3] = union;
}
