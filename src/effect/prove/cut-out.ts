import type { Band } from '../effect.ts';
import { type AnyLayer, neutralLayer, PLANE_CHANNELS, PLANE_NAMES } from '../layer.ts';

/** A part of a layer, as it would be painted alone. `x` and `y` count from the layer's own corner. */
export function cutOut(
  layer: AnyLayer,
  { x, y, width, height }: Pick<Band, 'x' | 'y' | 'width' | 'height'>,
): AnyLayer {
  const part = neutralLayer(
    PLANE_NAMES.filter((name) => layer[name]),
    width,
    height,
  );
  for (const name of PLANE_NAMES) {
    const [source, target] = [layer[name], part[name]];
    if (!source || !target) continue;
    const channels = PLANE_CHANNELS[name];
    for (let row = 0; row < height; row++) {
      const from = ((y + row) * layer.width + x) * channels;
      target.set(source.subarray(from, from + width * channels), row * width * channels);
    }
  }
  return part;
}
