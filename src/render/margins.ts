/** Pixels beyond a band, on all sides of it. */
export interface StepMargin {
  /** That later steps of the pass read. */
  readonly needed: number;
  /** Whether any step after it reads. */
  readonly isRead: boolean;
  /** That have to be painted for it: a relief is lit by its neighbours. */
  readonly painted: number;
}

/**
 * How far beyond its band each step of a pass has to be painted: a step that is read must be there wherever
 * its readers are painted, and a relief a little farther than where it is lit.
 *
 * @param steps The pass's, in order.
 * @param lit   Pixels of relief that lighting needs beyond what it lights.
 */
export function marginsOf(
  steps: readonly { readonly planes: readonly string[]; readonly reads: readonly string[] }[],
  lit: number,
): StepMargin[] {
  const margins: StepMargin[] = [];
  let needed = 0;
  let isRead = false;
  for (const { planes, reads } of steps.toReversed()) {
    const painted = needed + (planes.includes('relief') ? lit : 0);
    margins.unshift({ needed, painted, isRead });
    if (reads.length === 0) continue;
    needed = Math.max(needed, painted);
    isRead = true;
  }
  return margins;
}
