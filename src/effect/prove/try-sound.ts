import type { Band } from '../effect.ts';
import { HINTS } from '../hints.ts';
import type { AnyLayer } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import { holdsNaN } from './compare.ts';
import { Failed } from './failed.ts';
import { showMarked } from './picture.ts';
import { isUnsoundAt, unsoundIn } from './sound.ts';

/** Across the corner where four repeats meet. */
export const CORNER = { x: -23, y: -17, width: 64, height: 48 };

/** @throws Failed where a band holds a number that it must not. */
export function trySound(bench: Bench, sample: Sample): void {
  requireSound(sample, CORNER, bench.paint(sample, CORNER));
}

/**
 * @param view What was painted.
 * @param where What is known of the settings that lead there, as a sentence.
 * @throws Failed where the layer holds a number that it must not.
 */
export function requireSound(
  sample: Sample,
  view: Pick<Band, 'x' | 'y'>,
  layer: AnyLayer,
  where?: string,
): void {
  const found = unsoundIn(layer);
  if (!found) return;
  const { plane, value, x, y, range } = found;
  throw new Failed(sample.trial, {
    expected: `${plane} to hold ${range}`,
    received: `${value} at pixel (${view.x + x}, ${view.y + y})`,
    remedy: where ? `${where} ${remedyFor(value, sample)}` : remedyFor(value, sample),
    picture: showMarked(layer, (pixel) => isUnsoundAt(layer, pixel)),
  });
}

function remedyFor(value: number, { model }: Sample): string {
  if (Number.isFinite(value)) return 'Clamp it, or mend the sum that leads there.';
  return holdsNaN(model) ? HINTS.notFiniteModel : HINTS.notFinite;
}
