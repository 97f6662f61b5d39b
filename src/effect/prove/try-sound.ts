import { HINTS } from '../hints.ts';
import type { AnyLayer } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import { holdsNaN } from './compare.ts';
import { FoundUnsound, type UnsoundPlace } from './found-unsound.ts';
import { showMarked } from './picture.ts';
import { clampRemedy, isUnsoundAt, type Unsound, unsoundIn } from './sound.ts';

/** Across the corner where four repeats meet. */
export const CORNER = { x: -23, y: -17, width: 64, height: 48 };

/** @throws FoundUnsound where a band holds a number that it must not. */
export function trySound(bench: Bench, sample: Sample): void {
  const layer = bench.paintAnyhow(sample, CORNER);
  if (!unsoundIn(layer)) return;
  requireSound(sample, layer, CORNER, isSoundFurtherOn(bench, sample) ? HINTS.soundFurtherOn : undefined);
}

/**
 * @param view  What was painted.
 * @param aside What is known of the cause, as a whole sentence.
 * @throws FoundUnsound where the layer holds a number that it must not.
 */
export function requireSound(
  sample: Sample,
  layer: AnyLayer,
  view: UnsoundPlace['view'],
  aside?: string,
): void {
  const found = unsoundIn(layer);
  if (!found) return;
  const { plane, value, x, y, range } = found;
  throw new FoundUnsound(
    { sample, view, layer, plane, value, aside },
    {
      expected: `${plane} to hold ${range}`,
      received: `${value} at pixel (${view.x + x}, ${view.y + y})${onlyHere(layer)}`,
      remedy: [remedyFor(found, sample), aside].filter((part) => part).join(' '),
      picture: showMarked(layer, (pixel) => isUnsoundAt(layer, pixel)),
    },
  );
}

/** Whether the same corner is sound so many repeats further on that none of its places is negative. */
function isSoundFurtherOn(bench: Bench, sample: Sample): boolean {
  const { ax, ay, bx, by } = sample.grid.lattice;
  const repeats = Math.ceil(Math.max(-CORNER.x / ax, -CORNER.y / by));
  const [dx, dy] = [repeats * (ax + bx), repeats * (ay + by)];
  return !unsoundIn(bench.paintAnyhow(sample, { ...CORNER, x: CORNER.x + dx, y: CORNER.y + dy }));
}

/** How much of a band it is. */
function onlyHere(layer: AnyLayer): string {
  const pixels = layer.width * layer.height;
  let count = 0;
  for (let pixel = 0; pixel < pixels; pixel++) if (isUnsoundAt(layer, pixel)) count++;
  if (count === pixels) return ', as in every pixel of the band';
  return count === 1 ? ' alone' : `, the first of ${count} in a band of ${layer.width} x ${layer.height} px`;
}

function remedyFor({ plane, value }: Unsound, { model }: Sample): string {
  if (Number.isFinite(value)) return clampRemedy(plane);
  return holdsNaN(model) ? HINTS.notFiniteModel : HINTS.notFinite;
}
