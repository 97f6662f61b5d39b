import { HINTS } from '../hints.ts';
import type { AnyLayer } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import { holdsNaN } from './compare.ts';
import { FoundUnsound, type UnsoundPlace } from './found-unsound.ts';
import { showMarked } from './picture.ts';
import { isUnsoundAt, unsoundIn } from './sound.ts';

/** Across the corner where four repeats meet. */
export const CORNER = { x: -23, y: -17, width: 64, height: 48 };

/** @throws FoundUnsound where a band holds a number that it must not. */
export function trySound(bench: Bench, sample: Sample): void {
  requireSound(sample, bench.paint(sample, CORNER), CORNER);
}

/**
 * @param view What was painted.
 * @throws FoundUnsound where the layer holds a number that it must not.
 */
export function requireSound(sample: Sample, layer: AnyLayer, view: UnsoundPlace['view']): void {
  const found = unsoundIn(layer);
  if (!found) return;
  const { plane, value, x, y, range } = found;
  throw new FoundUnsound(
    { sample, view, layer, value },
    {
      expected: `${plane} to hold ${range}`,
      received: `${value} at pixel (${view.x + x}, ${view.y + y})${onlyHere(layer)}`,
      remedy: remedyFor(value, sample),
      picture: showMarked(layer, (pixel) => isUnsoundAt(layer, pixel)),
    },
  );
}

/** How much of a band it is. */
function onlyHere(layer: AnyLayer): string {
  const pixels = layer.width * layer.height;
  let count = 0;
  for (let pixel = 0; pixel < pixels; pixel++) if (isUnsoundAt(layer, pixel)) count++;
  if (count === pixels) return ', as in every pixel of the band';
  return count === 1 ? ' alone' : `, the first of ${count} in a band of ${layer.width} x ${layer.height} px`;
}

function remedyFor(value: number, { model }: Sample): string {
  if (Number.isFinite(value)) return 'Clamp it, or mend the sum that leads there.';
  return holdsNaN(model) ? HINTS.notFiniteModel : HINTS.notFinite;
}
