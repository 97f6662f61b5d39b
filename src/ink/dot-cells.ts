import { Fault } from '../fault.ts';
import { greatestCommonDivisor } from '../repeat/layout.ts';
import type { CellTorus } from './torus-kernel.ts';

/**
 * How whole fields of dots fill a period: its pixels fall into `across` x `down` cells, and these into copies of one
 * field. The axes are those of a drop; of a brick they are exchanged.
 */
export interface DotCells {
  /** Cells across the period: whole fields. */
  readonly across: number;
  /** Cells down the period: whole fields, and a multiple of the drop's denominator. */
  readonly down: number;
  /** One field, with a shear of its own by which its copies close over the drop. */
  readonly field: CellTorus;
}

/** What a period is, in pixels along the axes of a drop, and the least cell in pixels. */
export interface DotPeriod {
  readonly width: number;
  readonly height: number;
  /** Pixels that the next column of the period stands lower, 0 <= drop < height. */
  readonly drop: number;
  readonly leastAcross: number;
  readonly leastDown: number;
}

/**
 * Chooses the field's own size, as near to `side` x `side` cells as may be, so that whole fields fit the
 * period exactly. Where a period is no whole number of cells, some columns and rows of cells are a pixel
 * wider than the least, evenly spread; none is narrower.
 */
export function planDotCells(period: DotPeriod, side: number): DotCells {
  const { width, height, drop } = period;
  const denominator = height / greatestCommonDivisor(height, drop);
  const mostAcross = Math.max(1, Math.floor(width / period.leastAcross));
  const mostDown = Math.max(1, Math.floor(height / period.leastDown));
  const { copies: rows, size: fieldHeight } = wholeFields(mostDown, side, denominator, height);
  const down = rows * fieldHeight;
  const lower = (drop * down) / height;
  // A field that is less high than asked is wider, so that it holds as many dots.
  const wish = Math.min(4 * side, Math.round((side * side) / fieldHeight));
  const wanted = Math.max(1, Math.round(mostAcross / wish));
  for (let further = 0; ; further++) {
    const fewer = wanted - further;
    const columns = fewer > 0 ? [fewer, wanted + further] : [wanted + further];
    for (const copies of columns) {
      const shear = shearOf(copies, lower, fieldHeight);
      const fieldWidth = Math.floor(mostAcross / copies);
      if (shear === undefined || fieldWidth === 0) continue;
      return {
        across: copies * fieldWidth,
        down,
        field: { width: fieldWidth, height: fieldHeight, shear },
      };
    }
  }
}

/** Copies and cells of each, so that their product is a multiple of `step`, little less than `most`. */
function wholeFields(
  most: number,
  side: number,
  step: number,
  pixels: number,
): { copies: number; size: number } {
  const copies = Math.max(1, Math.round(most / side));
  for (let size = Math.floor(most / copies); size > 0; size--)
    if ((copies * size) % step === 0) return { copies, size };
  throw new Fault({
    kind: 'usage',
    expected: `a drop or brick whose step is at least a dot, ${step} of them along ${pixels} px`,
    subject: 'the least dot',
    received: `room for ${most}`,
    remedy: 'State a smaller least dot, or work at a higher density.',
  });
}

/** The shear at which `copies` of a field come to the drop: `copies * shear` = `lower`, in whole heights. */
function shearOf(copies: number, lower: number, height: number): number | undefined {
  for (let turns = 0; turns < copies; turns++) {
    const sum = lower + turns * height;
    if (sum % copies === 0) return (sum / copies) % height;
  }
  return undefined;
}
