import type { WorkStep } from '../../words/work.ts';

/** Where a step lies. */
export function Where(_: { step: WorkStep }) {
  return <>Over all of it.</>;
}
