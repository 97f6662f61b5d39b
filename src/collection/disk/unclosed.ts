import type { Sidecar } from './sidecar.ts';

/** How a picture's seams were judged: `look` wants a person's eye before it counts as open. */
export type SeamGrade = 'closes' | 'look' | 'open';

/** A render whose seams do not simply close. */
export interface Unclosed {
  readonly name: string;
  readonly grade: Exclude<SeamGrade, 'closes'>;
  /** What the check said. */
  readonly summary: string;
}

/** The grade of a verdict; one that was recorded without a grade closes or is open. */
export function gradeOf({ closes, grade }: { readonly closes: boolean; readonly grade?: string }): SeamGrade {
  if (grade === undefined) return closes ? 'closes' : 'open';
  return grade === 'closes' || grade === 'open' ? grade : 'look';
}

/** Those of some renders that do not simply close, in their order. */
export function unclosedOf(made: readonly Pick<Sidecar, 'name' | 'seams'>[]): Unclosed[] {
  return made.flatMap(({ name, seams }) => {
    const grade = gradeOf(seams);
    return grade === 'closes' ? [] : [{ name, grade, summary: seams.summary }];
  });
}
