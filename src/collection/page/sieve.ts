import type { PageData, PageSwatch } from './data.ts';

/** What is let through: of each axis the chosen values; of an axis with none chosen, all. */
export interface Sieve {
  readonly values: ReadonlyMap<string, ReadonlySet<string>>;
  readonly favouritesOnly: boolean;
  readonly renderedOnly: boolean;
}

export function passes(swatch: PageSwatch, sieve: Sieve, isFavourite: boolean): boolean {
  if (sieve.favouritesOnly && !isFavourite) return false;
  if (sieve.renderedOnly && !swatch.cloth) return false;
  return [...sieve.values].every(
    ([axis, chosen]) => chosen.size === 0 || chosen.has(swatch.labels[axis] ?? ''),
  );
}

/** The values of an axis in the order in which they first come, with how many swatches have each. */
export function valuesOf({ swatches }: Pick<PageData, 'swatches'>, axis: string): Map<string, number> {
  const values = new Map<string, number>();
  for (const { labels } of swatches)
    values.set(labels[axis] ?? '', (values.get(labels[axis] ?? '') ?? 0) + 1);
  return values;
}
