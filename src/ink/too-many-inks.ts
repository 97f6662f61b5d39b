import { Fault } from '../fault.ts';
import { printedInks, type ShadeCard } from './card.ts';
import { differenceOf } from './vision.ts';

/** Two inks that could be one, and how far apart they are. */
export interface InkMerge {
  readonly from: string;
  readonly into: string;
  /** CIEDE2000. */
  readonly cost: number;
}

/** The merges that bring a card's inks down to so many, the nearest two first; what is merged stays as its upper one. */
export function mergesTo(card: ShadeCard, count: number): InkMerge[] {
  const left = [...printedInks(card)];
  const merges: InkMerge[] = [];
  while (left.length > Math.max(1, count)) {
    let best: { readonly at: number; readonly merge: InkMerge } | undefined;
    for (let a = 0; a < left.length; a++)
      for (let b = a + 1; b < left.length; b++) {
        const cost = differenceOf(left[a].colour, left[b].colour);
        if (best && cost >= best.merge.cost) continue;
        best = { at: a, merge: { from: left[a].name, into: left[b].name, cost } };
      }
    left.splice(best!.at, 1);
    merges.push(best!.merge);
  }
  return merges;
}

/** @throws Fault (usage) for a card with more inks than screens; names the merges and what each costs. */
export function requireScreens(card: ShadeCard, count: number): void {
  const inks = printedInks(card);
  if (inks.length === 0)
    throw new Fault({
      kind: 'usage',
      expected: 'at least one ink beside the ground',
      subject: `the shade card "${card.name}"`,
      received: 'none',
      remedy: 'Give it an ink.',
    });
  if (inks.length <= count) return;
  const merges = mergesTo(card, count);
  const words = merges.map(({ from, into, cost }) => `${from} into ${into} (CIEDE2000 ${cost.toFixed(1)})`);
  throw new Fault({
    kind: 'usage',
    expected: `at most ${count} inks`,
    subject: `${count} ${count === 1 ? 'screen' : 'screens'}`,
    received: `${inks.length} of the shade card "${card.name}", the ground not counted`,
    remedy: `Merge the nearest: ${words.join(', ')}. Or ask for ${inks.length} screens.`,
    details: { merges },
  });
}
