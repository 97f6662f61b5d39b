import { Fault } from '../fault.ts';
import { randomStream } from '../field/random.ts';
import type { Lattice } from '../repeat/lattice.ts';
import { planDotCells } from './dot-cells.ts';
import type { ScatteredDots } from './dot-field.ts';
import { voidAndCluster } from './void-and-cluster.ts';

/** What scattered dots are made for. */
export interface ScatteredDotsWish {
  /** The period's vectors in whole pixels, e.g. of a `Grid`. */
  readonly lattice: Lattice;
  /** Pixels across and down of the least dot and the least gap, at least 1; 1 where absent. */
  readonly leastDot?: { readonly across: number; readonly down: number };
  /** Cells along each side of the field, about; 512 where absent. */
  readonly side?: number;
  /** Another seed, another field. */
  readonly seed?: string;
}

/** Cells along a field's side: as large as is quick to make, and far larger than an eye follows. */
const SIDE = 512;
/** The highest threshold: less than the whole, so that a full amount stands everywhere. */
const HIGHEST = 65_535;

/**
 * A field of scattered dots (stochastic, frequency modulated) by void and cluster, made on the lattice
 * itself: whole fields fill the period, and its copies close over every drop and brick.
 *
 * @throws Fault (usage) where the period is smaller than the least dot.
 */
export function createScatteredDots({
  lattice,
  leastDot = { across: 1, down: 1 },
  side = SIDE,
  seed = '1',
}: ScatteredDotsWish): ScatteredDots {
  const { ax, ay, bx, by } = lattice;
  const isBrick = bx !== 0;
  if (leastDot.across > ax || leastDot.down > by) throw tooSmall(lattice, leastDot);
  const cells = planDotCells(
    isBrick
      ? { width: by, height: ax, drop: bx, leastAcross: leastDot.down, leastDown: leastDot.across }
      : { width: ax, height: by, drop: ay, leastAcross: leastDot.across, leastDown: leastDot.down },
    side,
  );
  const ranks = voidAndCluster(cells.field, randomStream(seed, 'dots'));
  return { kind: 'scattered', lattice, isBrick, ...cells, thresholds: thresholdsOf(ranks) };
}

/** Thresholds as evenly spread as the ranks: dots stand on a share of the cells that is the amount asked. */
function thresholdsOf(ranks: Uint32Array): Uint16Array {
  return Uint16Array.from(ranks, (rank) => Math.floor(((rank + 0.5) * HIGHEST) / ranks.length));
}

function tooSmall({ ax, by }: Lattice, { across, down }: { across: number; down: number }): Fault {
  return new Fault({
    kind: 'usage',
    expected: `a repeat larger than its least dot (${across} x ${down} px)`,
    subject: 'dots',
    received: `${ax} x ${by} px`,
    remedy: 'State a smaller least dot, or work at a higher density.',
  });
}
