import type { Work } from '../../words/work.ts';

/** So many steps back are kept. */
const MOST_KEPT = 100;

/** A work with what it was before and what was undone; oldest first. */
export interface Story {
  readonly work: Work;
  readonly past: readonly Work[];
  readonly future: readonly Work[];
}

/** One more change. @param joins True where it goes on with the last one: a value that is being dragged. */
export function changed({ work, past }: Story, next: Work, joins: boolean): Story {
  return { work: next, past: joins ? past : [...past, work].slice(-MOST_KEPT), future: [] };
}

export function undone({ work, past, future }: Story): Story {
  const before = past.at(-1);
  return before
    ? { work: before, past: past.slice(0, -1), future: [work, ...future] }
    : { work, past, future };
}

export function redone({ work, past, future }: Story): Story {
  const [next, ...others] = future;
  return next ? { work: next, past: [...past, work], future: others } : { work, past, future };
}
