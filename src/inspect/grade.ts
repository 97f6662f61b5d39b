import type { Seam } from './seam.ts';

/** `look`: a person should look at the place; it is as likely the picture's own as a fault. */
export type Grade = 'closes' | 'look' | 'open';

/** Up to this share of what passes a figure above 1 is a doubt: one in ten of the faults that are found lies there. */
const DOUBT = 1.15;
/** Above this share nothing that the picture shows elsewhere explains it, and it is looked at once only. */
export const CLEAR = 2;

/** The worst of the grades. */
export function worstGrade(grades: readonly Grade[]): Grade {
  return grades.includes('open') ? 'open' : grades.includes('look') ? 'look' : 'closes';
}

/**
 * What the largest share of an edge comes to.
 *
 * @param excess The share of what passes, 1 the most that does.
 * @param own    The largest share where the seam is not: at the edges of the picture rolled over its
 *   lattice. Above 1 the picture fails there too, and so may well fail at the seam by what it draws.
 * @param how    An edge that turns upon itself cannot be rolled away and pictures that close come to 1.75
 *   there, so all up to `CLEAR` is a doubt.
 */
export function gradeOf(excess: number, own: number, how: Seam['how']): Grade {
  if (excess <= 1) return 'closes';
  const isOwn = own > 1;
  if (excess <= DOUBT) return isOwn ? 'closes' : 'look';
  return excess <= CLEAR && (isOwn || how === 'turned') ? 'look' : 'open';
}
