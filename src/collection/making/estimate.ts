import { guessRender } from '../../render/pace.ts';
import type { Sidecar } from '../disk/sidecar.ts';
import { type Item, pixelsOf } from '../plan/item.ts';

/** What the missing renders of a plan will take. */
export interface Estimate {
  readonly pixels: number;
  readonly seconds: number;
  readonly bytes: number;
  /** True where earlier renders in the folder were measured; false where stated figures were used. */
  readonly measured: boolean;
}

/** Of the file, per pixel: a linen of 4 megapixels as PNG. */
const STATED_BYTES = 2;

/** Enough to tell; the folder may hold thousands. */
const MOST_LOOKED_AT = 400;

/**
 * Estimates time and disk from renders that are there: the median for each recipe, else over all.
 *
 * @param cores Threads that will work; only the stated figures depend on it.
 */
export function estimate(missing: readonly Item[], made: Iterable<Sidecar>, cores: number): Estimate {
  const known = [...made].slice(0, MOST_LOOKED_AT);
  const pixels = missing.reduce((sum, item) => sum + pixelsOf(item), 0);
  let [nanoseconds, bytes] = [0, 0];
  const rates = new Map<string, Rates>();
  for (const item of missing) {
    const recipe = item.labels.recipe;
    const rate = rates.get(recipe) ?? ratesOf(known, recipe);
    rates.set(recipe, rate);
    nanoseconds += rate.nanoseconds ? pixelsOf(item) * rate.nanoseconds : guessOf(item, cores);
    bytes += pixelsOf(item) * rate.bytes;
  }
  return { pixels, seconds: nanoseconds / 1e9, bytes, measured: known.length > 0 };
}

/** Per pixel of the picture. */
interface Rates {
  /** None where nothing was measured. */
  readonly nanoseconds?: number;
  readonly bytes: number;
}

/** By what its effects are known to take; the items under way fill all cores between them. */
function guessOf(item: Item, cores: number): number {
  const { prepare, paint, finish } = guessRender(item);
  return ((prepare + paint + finish) * 1e9) / cores;
}

function ratesOf(known: readonly Sidecar[], recipe: string): Rates {
  const same = known.filter(({ labels }) => labels.recipe === recipe);
  const used = same.length ? same : known;
  if (used.length === 0) return { bytes: STATED_BYTES };
  const pixels = ({ picture }: Sidecar) => picture.widthPx * picture.heightPx;
  return {
    nanoseconds: medianOf(used.map((sidecar) => (sidecar.run.milliseconds.share * 1e6) / pixels(sidecar))),
    bytes: medianOf(used.map((sidecar) => sidecar.picture.bytes / pixels(sidecar))),
  };
}

function medianOf(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
}
