import { Fault, greatestCommonDivisor, modulo } from 'tenter';

/** The weaves on offer. */
export const WEAVES = ['plain', 'twill', 'basket', 'satin'] as const;
export type Weave = (typeof WEAVES)[number];

/**
 * A weave draft: one repeat of the interlacing. `warpUp[j * across + i]` is 1 where end `i` lies
 * over pick `j`; picks are counted down the page.
 */
export interface Draft {
  /** Ends in one repeat. */
  readonly across: number;
  /** Picks in one repeat. */
  readonly down: number;
  readonly warpUp: Uint8Array;
}

/** More threads than this in a repeat is a figured weave, not a ground. */
export const LARGEST_ORDER = 16;

/** Order and move that a weaver means who names the weave alone. */
const USUAL: Readonly<Record<Weave, { readonly order: number; readonly move: number }>> = {
  plain: { order: 2, move: 1 },
  twill: { order: 4, move: 1 },
  basket: { order: 4, move: 2 },
  satin: { order: 5, move: 2 },
};

/**
 * The draft of a weave.
 *
 * @param order Threads in one repeat, 0 for the usual one. Plain weave has no other than 2.
 * @param move  Steps from one thread's interlacing to the next one's, 0 for the usual one.
 * @throws Fault (usage) for an order or move that makes no such weave; names those that do.
 */
export function draftOf(weave: Weave, order: number, move: number): Draft {
  const threads = weave === 'plain' ? USUAL.plain.order : order || USUAL[weave].order;
  if (weave === 'plain') return plainDraft();
  if (weave === 'basket') return basketDraft(threads);
  const valid = weave === 'twill' ? twillMoves(threads) : satinMoves(threads);
  if (valid.length === 0) throw wrongOrder(weave, threads);
  const step = move || (valid.includes(USUAL[weave].move) ? USUAL[weave].move : valid[0]);
  if (!valid.includes(step)) throw wrongMove(weave, threads, step, valid);
  return weave === 'twill' ? twillDraft(threads, step) : satinDraft(threads, step);
}

/** Over one, under one. */
export function plainDraft(): Draft {
  return draftFrom(2, (i, j) => (i + j) % 2 === 0);
}

/**
 * A twill with as many threads over as under (one more over where `order` is odd). With move 1 the
 * line climbs to the right, with move `order - 1` to the left.
 */
export function twillDraft(order: number, move: number): Draft {
  return draftFrom(order, (i, j) => modulo(j + move * i, order) < Math.ceil(order / 2));
}

/** Plain weave in groups of `order / 2` threads. */
export function basketDraft(order: number): Draft {
  if (order < 4 || order % 2 !== 0 || order > LARGEST_ORDER) throw wrongOrder('basket', order);
  const group = order / 2;
  return draftFrom(order, (i, j) => (Math.floor(i / group) + Math.floor(j / group)) % 2 === 0);
}

/** A warp-faced satin: every end goes under one pick in `order`. */
export function satinDraft(order: number, move: number): Draft {
  return draftFrom(order, (i, j) => modulo(j + move * i, order) !== 0);
}

/** 1 and its opposite: a twill line moves by one thread. */
function twillMoves(order: number): number[] {
  if (order < 3 || order > LARGEST_ORDER) return [];
  return order === 3 ? [1, 2] : [1, order - 1];
}

/**
 * The moves that make a satin of `order` threads: without a divisor in common with it, and neither
 * 1 nor `order - 1`, which are twills. Order 6 has none (ISO 3572; Wolfensberger, *Theory of Silk
 * Weaving*).
 */
export function satinMoves(order: number): number[] {
  const moves: number[] = [];
  if (order > LARGEST_ORDER) return moves;
  for (let move = 2; move <= order - 2; move++) {
    if (greatestCommonDivisor(order, move) === 1) moves.push(move);
  }
  return order < 5 ? [] : moves;
}

/** Whether end `i` lies over pick `j`, anywhere on the plane. */
export function isWarpUp({ across, down, warpUp }: Draft, i: number, j: number): boolean {
  return warpUp[modulo(j, down) * across + modulo(i, across)] === 1;
}

/** The share of the crossings at which the warp lies on top: 1/2 where both faces are alike. */
export function warpShare({ warpUp }: Draft): number {
  return warpUp.reduce((sum, up) => sum + up, 0) / warpUp.length;
}

/** Whether moving the draft by `ends` and `picks` leaves it as it is. */
export function isSymmetry(draft: Draft, ends: number, picks: number): boolean {
  for (let j = 0; j < draft.down; j++) {
    for (let i = 0; i < draft.across; i++) {
      if (isWarpUp(draft, i, j) !== isWarpUp(draft, i + ends, j + picks)) return false;
    }
  }
  return true;
}

function draftFrom(order: number, isUp: (i: number, j: number) => boolean): Draft {
  const warpUp = new Uint8Array(order * order);
  for (let j = 0; j < order; j++) {
    for (let i = 0; i < order; i++) warpUp[j * order + i] = isUp(i, j) ? 1 : 0;
  }
  return { across: order, down: order, warpUp };
}

const ORDERS: Readonly<Record<Weave, string>> = {
  plain: '2',
  twill: `a whole number from 3 to ${LARGEST_ORDER}`,
  basket: `an even number from 4 to ${LARGEST_ORDER}`,
  satin: `5 or a whole number from 7 to ${LARGEST_ORDER}`,
};

function wrongOrder(weave: Weave, order: number): Fault {
  return new Fault({
    kind: 'usage',
    expected: ORDERS[weave],
    subject: `the order of a ${weave}`,
    received: String(order),
    remedy: `Write 0 for the usual one, ${USUAL[weave].order}.`,
  });
}

function wrongMove(weave: Weave, order: number, move: number, valid: readonly number[]): Fault {
  return new Fault({
    kind: 'usage',
    expected: `one of ${valid.join(', ')}`,
    subject: `the move of a ${weave} of order ${order}`,
    received: String(move),
    remedy: 'Write 0 for the usual one.',
  });
}
