import { HINTS } from '../hints.ts';
import type { AnyLayer, PlaneName } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import { holdsNaN } from './compare.ts';
import { Failed } from './failed.ts';
import { showMarked } from './picture.ts';
import { isUnsoundAt, type Unsound, unsoundIn } from './sound.ts';

/** Across the corner where four repeats meet. */
export const CORNER = { x: -23, y: -17, width: 64, height: 48 };

const IN_MM: readonly PlaneName[] = ['shift', 'bleed', 'relief'];

/**
 * @param aside What is known of the cause, as a whole sentence.
 * @throws Failed where a band holds a number that it must not.
 */
export function trySound(bench: Bench, sample: Sample, aside?: string): void {
  const layer = bench.paint(sample, CORNER);
  const found = unsoundIn(layer);
  if (!found) return;
  const known = isSoundFurtherOn(bench, sample) ? HINTS.soundFurtherOn : aside;
  throw notSound(sample, layer, found, { x: CORNER.x, y: CORNER.y, aside: known });
}

/**
 * @param place Pixel of the plane that the layer begins at.
 * @throws Failed where a layer that was painted before holds a number that it must not.
 */
export function requireSound(
  sample: Sample,
  layer: AnyLayer,
  place: { x: number; y: number },
  aside?: string,
) {
  const found = unsoundIn(layer);
  if (found) throw notSound(sample, layer, found, { ...place, aside });
}

interface Circumstances {
  readonly x: number;
  readonly y: number;
  readonly aside: string | undefined;
}

function notSound(sample: Sample, layer: AnyLayer, found: Unsound, { x, y, aside }: Circumstances): Failed {
  const { plane, value, range } = found;
  return new Failed(sample.trial, {
    expected: `${plane} to hold ${range}`,
    received: `${value} at pixel (${x + found.x}, ${y + found.y})`,
    remedy: [remedyFor(found, sample), aside].filter((part) => part).join(' '),
    picture: showMarked(layer, (pixel) => isUnsoundAt(layer, pixel)),
  });
}

/** Whether the same corner is sound so many repeats further on that none of its places is negative. */
function isSoundFurtherOn(bench: Bench, sample: Sample): boolean {
  const { ax, ay, bx, by } = sample.grid.lattice;
  const repeats = Math.ceil(Math.max(-CORNER.x / ax, -CORNER.y / by));
  const [dx, dy] = [repeats * (ax + bx), repeats * (ay + by)];
  return !unsoundIn(bench.paint(sample, { ...CORNER, x: CORNER.x + dx, y: CORNER.y + dy }));
}

function remedyFor({ plane, value }: Unsound, { model }: Sample): string {
  if (Number.isFinite(value)) return IN_MM.includes(plane) ? HINTS.clampMm : HINTS.clamp;
  return holdsNaN(model) ? HINTS.notFiniteModel : HINTS.notFinite;
}
