import { colourDifference } from '../colour/difference.ts';
import { labOfBytes } from '../colour/lab.ts';
import type { ShadeCard } from './card.ts';
import type { Colourway } from './colourway.ts';

/** CIEDE2000: two inks nearer than this are hardly told apart where they do not touch. */
export const ALIKE_DIFFERENCE = 5;
/** Of CIE L*, 0..100: two inks that differ by more than this are a light and a dark one. */
export const LIGHT_AND_DARK = 10;

/** What a colourway does to a design that may not be meant. */
export type ColourwayDoubt =
  | {
      readonly kind: 'alike';
      /** The two inks, by the names of the card and in its order. */
      readonly inks: readonly [string, string];
      /** CIEDE2000 on the card and in the colourway. */
      readonly before: number;
      readonly after: number;
    }
  | {
      readonly kind: 'reversed';
      /** The ink that was the lighter one, and that which is now. */
      readonly inks: readonly [string, string];
      /** L* of the first above that of the second, on the card and in the colourway. */
      readonly before: number;
      readonly after: number;
    };

/** Where two inks that differed become alike, and where light and dark change places. */
export function colourwayDoubts({ inks }: ShadeCard, { colours }: Colourway): ColourwayDoubt[] {
  const before = inks.map(({ colour }) => labOfBytes(colour));
  const after = colours.map(labOfBytes);
  const doubts: ColourwayDoubt[] = [];
  for (let one = 0; one < inks.length; one++)
    for (let other = one + 1; other < inks.length; other++) {
      const names = [inks[one].name, inks[other].name] as const;
      const differed = colourDifference(before[one], before[other]);
      const differs = colourDifference(after[one], after[other]);
      if (differed >= ALIKE_DIFFERENCE && differs < ALIKE_DIFFERENCE)
        doubts.push({ kind: 'alike', inks: names, before: differed, after: differs });
      const was = before[one].L - before[other].L;
      const is = after[one].L - after[other].L;
      if (Math.abs(was) <= LIGHT_AND_DARK || Math.abs(is) <= LIGHT_AND_DARK || was > 0 === is > 0) continue;
      doubts.push(
        was > 0
          ? { kind: 'reversed', inks: names, before: was, after: is }
          : { kind: 'reversed', inks: [names[1], names[0]], before: -was, after: -is },
      );
    }
  return doubts;
}
