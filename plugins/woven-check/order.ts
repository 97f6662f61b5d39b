import { Fault } from 'tenter';

/** Threads of one colour side by side. */
export interface Stripe {
  /** Of the colour in the palette, from 0. */
  readonly yarn: number;
  /** From 1. */
  readonly threads: number;
}

/** Letters A to H and a count each, with a space between. */
export const ORDER_PATTERN = '[A-H][1-9][0-9]{0,2}( [A-H][1-9][0-9]{0,2}){0,63}';
/** What a weft is that follows the warp. */
export const SAME = 'same';

/**
 * Reads an order of threads as weavers write it.
 *
 * @param text  Fits `ORDER_PATTERN`.
 * @param yarns Colours there are.
 * @param whose `warp` or `weft`, for the message.
 * @throws Fault (usage) for a letter that has no colour.
 */
export function readOrder(text: string, yarns: number, whose: string): Stripe[] {
  return text.split(' ').map((part) => {
    const yarn = part.charCodeAt(0) - FIRST_LETTER;
    if (yarn >= yarns) throw noSuchYarn(part, yarns, whose);
    return { yarn, threads: Number(part.slice(1)) };
  });
}

/** The same in writing. */
export function writeOrder(stripes: readonly Stripe[]): string {
  return stripes.map(({ yarn, threads }) => `${letterOf(yarn)}${threads}`).join(' ');
}

/** Threads of an order. */
export function countThreads(stripes: readonly Stripe[]): number {
  return stripes.reduce((sum, { threads }) => sum + threads, 0);
}

/**
 * The order in another number of threads: each stripe in its share, no stripe left out. What is over after
 * rounding down goes to those that lost most (largest remainders), the first of equals first.
 *
 * @param threads At least one for each stripe.
 */
export function scaleOrder(stripes: readonly Stripe[], threads: number): Stripe[] {
  const factor = threads / countThreads(stripes);
  const counts = stripes.map((stripe) => Math.max(1, Math.floor(stripe.threads * factor)));
  let over = threads - counts.reduce((sum, count) => sum + count, 0);
  while (over !== 0) {
    const step = Math.sign(over);
    const wants = (index: number) => step * (stripes[index].threads * factor - counts[index]);
    const [next] = counts
      .map((_, index) => index)
      .filter((index) => counts[index] + step >= 1)
      .sort((a, b) => wants(b) - wants(a));
    counts[next] += step;
    over -= step;
  }
  return stripes.map(({ yarn }, index) => ({ yarn, threads: counts[index] }));
}

/**
 * The colour of each thread in turn, from the middle of the first stripe on: where a tile is cut then lies within a
 * stripe, as weavers begin in one. Read to the end and back where `turned`, which begins and ends in it anyway.
 */
export function threadsOf(stripes: readonly Stripe[], turned: boolean): Uint8Array {
  const there = stripes.flatMap(({ yarn, threads }) => new Array<number>(threads).fill(yarn));
  if (turned) return Uint8Array.from([...there, ...there.toReversed()]);
  const half = Math.floor(stripes[0].threads / 2);
  return Uint8Array.from([...there.slice(half), ...there.slice(0, half)]);
}

const FIRST_LETTER = 'A'.charCodeAt(0);

function letterOf(yarn: number): string {
  return String.fromCharCode(FIRST_LETTER + yarn);
}

function noSuchYarn(part: string, yarns: number, whose: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: yarns === 1 ? 'the letter A alone' : `letters from A to ${letterOf(yarns - 1)}`,
    subject: `the ${whose} of a cloth with ${yarns === 1 ? 'one yarn' : `${yarns} yarns`}`,
    received: `"${part}"`,
    remedy: 'Add a colour to yarns, or write a letter that has one.',
  });
}
