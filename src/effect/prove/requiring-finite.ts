import { isFinitePlane } from '../finite-plane.ts';
import { type AnyLayer, PLANE_NAMES } from '../layer.ts';
import type { Bench } from './bench.ts';
import { requireSound } from './try-sound.ts';

/**
 * The same bench, but that it throws FoundUnsound where a layer holds NaN or an infinite number: a check that
 * compares such numbers would tell of lines and steps that nobody can see, since there is no picture.
 *
 * @param isOfDefaults Whether only where all parameters are at their defaults.
 */
export function requiringFinite(bench: Bench, isOfDefaults: boolean): Bench {
  return {
    ...bench,
    paint(sample, rectangle) {
      const layer = bench.paint(sample, rectangle);
      const isLeft = isOfDefaults && Object.keys(sample.trial.parameters).length > 0;
      if (!isLeft && !isFiniteLayer(layer)) requireSound(sample, layer, rectangle);
      return layer;
    },
  };
}

function isFiniteLayer(layer: AnyLayer): boolean {
  return PLANE_NAMES.every((name) => {
    const plane = layer[name];
    return !plane || isFinitePlane(plane);
  });
}
