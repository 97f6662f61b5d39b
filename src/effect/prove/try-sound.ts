import type { Bench, Sample } from './bench.ts';
import { Failed } from './failed.ts';
import { showMarked } from './picture.ts';
import { isUnsoundAt, unsoundIn } from './sound.ts';

/** Across the corner where four repeats meet. */
export const CORNER = { x: -23, y: -17, width: 64, height: 48 };

/** @throws Failed where a band holds a number that it must not. */
export function trySound(bench: Bench, sample: Sample): void {
  const layer = bench.paint(sample, CORNER);
  const found = unsoundIn(layer);
  if (!found) return;
  const { plane, value, x, y, range } = found;
  throw new Failed(sample.trial, {
    expected: `${plane} to hold ${range}`,
    received: `${value} at pixel (${CORNER.x + x}, ${CORNER.y + y})`,
    remedy: Number.isFinite(value)
      ? 'Clamp it, or mend the sum that leads there.'
      : 'Look for a division by zero, a root or logarithm of a negative number, or a sum over nothing.',
    picture: showMarked(layer, (pixel) => isUnsoundAt(layer, pixel)),
  });
}
