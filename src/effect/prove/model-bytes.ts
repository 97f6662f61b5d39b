import { bytesIn } from './compare.ts';
import { lentBuffers } from './proof-swatches.ts';
import type { Sample } from './sample.ts';

/** Megabytes that a model takes; the pictures that it was given are not its own. */
export function megabytesOf({ model }: Pick<Sample, 'model'>): number {
  return bytesIn(model, lentBuffers()) / 2 ** 20;
}
