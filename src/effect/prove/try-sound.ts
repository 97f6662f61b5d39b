import { HINTS } from '../hints.ts';
import type { Bench, Sample } from './bench.ts';
import { holdsNaN } from './compare.ts';
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
    remedy: remedyFor(value, sample),
    picture: showMarked(layer, (pixel) => isUnsoundAt(layer, pixel)),
  });
}

function remedyFor(value: number, { model }: Sample): string {
  if (Number.isFinite(value)) return 'Clamp it, or mend the sum that leads there.';
  return holdsNaN(model) ? HINTS.notFiniteModel : HINTS.notFinite;
}
