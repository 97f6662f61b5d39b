import type { RandomStream } from '../field/random.ts';
import { createHighestCell } from './highest-cell.ts';
import { addBell, type Bell, bellOf, type CellTorus } from './torus-kernel.ts';

/** Ulichney 1993: the standard deviation of the bell, in cells, that served best. */
const DEVIATION = 1.5;
/** Ulichney 1993: about a tenth of the cells stand in the first pattern. */
const FIRST_SHARE = 0.1;
/** The widest bell: dots that are further apart than this are so few that nobody can tell. */
const WIDEST_RADIUS = 96;

/**
 * The order in which the cells of a torus fill with dots, by void and cluster (R. Ulichney, "The
 * void-and-cluster method for dither array generation", Proc. SPIE 1913, 1993): a rank for every cell, 0 the
 * first. Distances are those on the torus, whatever its shear.
 *
 * Where dots, or the gaps between them, are sparse, the bell grows with their distance; a bell of one width
 * would not see from one to the next, and light tones would clump.
 */
export function voidAndCluster(torus: CellTorus, random: RandomStream): Uint32Array {
  const count = torus.width * torus.height;
  const first = firstPattern(torus, random);
  const ranks = new Uint32Array(count);
  const below = first.reduce((sum, stands) => sum + stands, 0);
  thinOut(torus, first, (cell, left) => {
    ranks[cell] = left;
  });
  const half = Math.max(below, Math.ceil(count / 2));
  const pattern = fillUp(torus, first, below, half, ranks);
  const gaps = pattern.map((stands) => 1 - stands);
  thinOut(torus, gaps, (cell, left) => {
    ranks[cell] = count - 1 - left;
  });
  return ranks;
}

/** The bell for a share of cells that stand, 0..1: as wide to their distance as 1.5 cells are at a tenth. */
function bellFor(share: number): { readonly bell: Bell; readonly until: number } {
  const step = Math.max(0, Math.floor(2 * Math.log2(Math.sqrt(FIRST_SHARE / share)) + 1e-9));
  return { bell: bellOf(DEVIATION * 2 ** (step / 2), WIDEST_RADIUS), until: FIRST_SHARE / 2 ** (step + 1) };
}

function energyOf(torus: CellTorus, bell: Bell, pattern: Uint8Array): Int32Array {
  const energy = new Int32Array(pattern.length);
  for (let cell = 0; cell < pattern.length; cell++)
    if (pattern[cell]) addBell(torus, bell, cell, 1, energy, () => {});
  return energy;
}

/** A tenth of the cells, moved from the tightest clusters to the largest voids until that changes nothing. */
function firstPattern(torus: CellTorus, random: RandomStream): Uint8Array {
  const count = torus.width * torus.height;
  const pattern = new Uint8Array(count);
  const wanted = Math.max(1, Math.round(count * FIRST_SHARE));
  for (let left = wanted; left > 0; ) {
    const cell = random.below(count);
    if (pattern[cell]) continue;
    pattern[cell] = 1;
    left--;
  }
  const bell = bellOf(DEVIATION, WIDEST_RADIUS);
  const energy = energyOf(torus, bell, pattern);
  const tightest = createHighestCell({ energy, pattern, among: 1, sign: 1 });
  const emptiest = createHighestCell({ energy, pattern, among: 0, sign: -1 });
  const touch = (from: number, to: number) => {
    tightest.touch(from, to);
    emptiest.touch(from, to);
  };
  // It settles long before; the bound keeps two cells that are alike from changing places for ever.
  for (let moves = 0; moves < 4 * wanted; moves++) {
    const cluster = tightest.find();
    pattern[cluster] = 0;
    addBell(torus, bell, cluster, -1, energy, touch);
    const gap = emptiest.find();
    pattern[gap] = 1;
    addBell(torus, bell, gap, 1, energy, touch);
    if (gap === cluster) break;
  }
  return pattern;
}

/** Takes the tightest of a pattern's cells away, one after another, and tells how many were then left. */
function thinOut(torus: CellTorus, start: Uint8Array, onTaken: (cell: number, left: number) => void): void {
  const pattern = start.slice();
  const count = pattern.length;
  let left = pattern.reduce((sum, stands) => sum + stands, 0);
  while (left > 0) {
    const { bell, until } = bellFor(left / count);
    const energy = energyOf(torus, bell, pattern);
    const tightest = createHighestCell({ energy, pattern, among: 1, sign: 1 });
    while (left > 0 && (left > until * count || bell.radius === WIDEST_RADIUS)) {
      const cell = tightest.find();
      pattern[cell] = 0;
      left--;
      onTaken(cell, left);
      addBell(torus, bell, cell, -1, energy, tightest.touch);
    }
  }
}

/** Fills the largest voids until `until` cells stand; the pattern then. */
function fillUp(
  torus: CellTorus,
  start: Uint8Array,
  standing: number,
  until: number,
  ranks: Uint32Array,
): Uint8Array {
  const pattern = start.slice();
  const bell = bellOf(DEVIATION, WIDEST_RADIUS);
  const energy = energyOf(torus, bell, pattern);
  const emptiest = createHighestCell({ energy, pattern, among: 0, sign: -1 });
  for (let rank = standing; rank < until; rank++) {
    const cell = emptiest.find();
    pattern[cell] = 1;
    ranks[cell] = rank;
    addBell(torus, bell, cell, 1, energy, emptiest.touch);
  }
  return pattern;
}
