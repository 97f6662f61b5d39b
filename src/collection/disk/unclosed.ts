import type { Grade } from '../../inspect/index.ts';
import { isUnlaid } from '../../render/mask-words.ts';
import type { Sidecar, Verdict } from './sidecar.ts';

/** A render whose seams do not simply close. */
export interface Unclosed {
  readonly name: string;
  readonly grade: Exclude<Grade, 'closes'>;
  /** What the check said. */
  readonly summary: string;
}

/** The names of those of some renders in which the mask of a step took nothing, in their order. */
export function unlaidOf(made: readonly Pick<Sidecar, 'name' | 'laidOn'>[]): string[] {
  return made.flatMap(({ name, laidOn = [] }) =>
    laidOn.some((share) => isUnlaid(share ?? undefined)) ? [name] : [],
  );
}

/** The grade of a verdict; one that was recorded without a grade closes or is open. */
export function gradeOf({ closes, grade }: Omit<Verdict, 'summary'>): Grade {
  return grade ?? (closes ? 'closes' : 'open');
}

/** Those of some renders that do not simply close, in their order. */
export function unclosedOf(made: readonly Pick<Sidecar, 'name' | 'seams'>[]): Unclosed[] {
  return made.flatMap(({ name, seams }) => {
    const grade = gradeOf(seams);
    return grade === 'closes' ? [] : [{ name, grade, summary: seams.summary }];
  });
}
