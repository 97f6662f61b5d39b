import { Fault } from 'tenter';

/**
 * One repeat of the interlacing along an end, 1 where it lies over the pick. Crossing (end i, pick j) is entry
 * (i + j) modulo its length: each end does what its left neighbour did one pick further down, so the line of a
 * twill climbs to the right.
 */
export type Weave = Uint8Array;

/**
 * The weave of floats over and under by turns.
 *
 * @param floats `1, 1` for plain weave, `2, 2` for an even twill.
 * @throws Fault (usage) where the last float over has none under beside it.
 */
export function weaveOf(floats: readonly number[]): Weave {
  if (floats.length % 2 !== 0) throw oddFloats(floats);
  return Uint8Array.from(
    floats.flatMap((length, index) => new Array<number>(length).fill(index % 2 === 0 ? 1 : 0)),
  );
}

function oddFloats(floats: readonly number[]): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'as many floats over as under, an even number of them,',
    subject: 'the weave',
    received: floats.join(','),
    remedy: `Write for example ${[...floats, 1].join(',')}.`,
  });
}
