import type { Labels } from '../plan/combine.ts';

/** The axes on which some of these differ, in the order in which they first come. */
export function differingAxes(all: readonly { readonly labels: Labels }[]): string[] {
  const values = new Map<string, Set<string | undefined>>();
  for (const { labels } of all) for (const axis of Object.keys(labels)) values.set(axis, new Set());
  for (const { labels } of all) for (const [axis, seen] of values) seen.add(labels[axis]);
  return [...values].filter(([, seen]) => seen.size > 1).map(([axis]) => axis);
}
