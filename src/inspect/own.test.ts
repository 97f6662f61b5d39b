import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { unfold } from '../repeat/unfold.ts';
import { checkSeams } from './check.ts';
import { allowOwn } from './own.ts';

const SIDE = 200;
const WIDE = 2 * SIDE;
const STRAIGHT = parseLayout('straight');
const KIN = { kinColumns: [SIDE], kinRows: [] };

/** A tile of soft tone with a thin dark line on its left edge, unfolded over mirror-x. */
function unfoldedTile(): Uint8Array {
  const tile = new Uint8Array(SIDE * SIDE * 4);
  for (let y = 0, k = 0; y < SIDE; y++) {
    for (let x = 0; x < SIDE; x++, k += 4) {
      const soft = 150 + 30 * Math.sin(x / 17) * Math.cos((2 * Math.PI * 3 * y) / SIDE);
      tile.fill(x < 3 ? 40 : soft, k, k + 3);
      tile[k + 3] = 255;
    }
  }
  const box = new Uint8Array(WIDE * SIDE * 4);
  return unfold(parseLayout('mirror-x'), tile, SIDE, SIDE, 4, box) as Uint8Array;
}

/** Multiplies by stripes of light that close over the box, or, with another period, do not. */
function shaded(pixels: Uint8Array, periods: number): Uint8Array {
  return pixels.map((value, k) => {
    if (k % 4 === 3) return value;
    const x = Math.floor(k / 4) % WIDE;
    return value * (0.85 + 0.1 * Math.sin((2 * Math.PI * periods * x) / WIDE));
  });
}

function check(pixels: Uint8Array) {
  return checkSeams({ pixels, width: WIDE, height: SIDE }, STRAIGHT, KIN);
}

it('is the same check whether a picture is known to be opaque or looked at', () => {
  const pixels = unfoldedTile();
  const picture = { pixels, width: WIDE, height: SIDE };
  expect(checkSeams({ ...picture, isOpaque: true }, STRAIGHT)).toEqual(checkSeams(picture, STRAIGHT));
});

describe('allowOwn', () => {
  const own = unfoldedTile();

  it("takes a line that the design draws along its mirror line for the design's", () => {
    const alone = check(shaded(own, 9));
    expect(alone.closes).toBe(false);
    const allowed = allowOwn(alone, check(own));
    expect(allowed.closes).toBe(true);
    expect(allowed.summary).toContain('the design itself');
    expect(allowed.edges.every(({ summary }) => summary.endsWith('closes.'))).toBe(true);
  });

  it('still finds a texture that does not close', () => {
    const allowed = allowOwn(check(shaded(own, 9.3)), check(own));
    expect(allowed.closes).toBe(false);
    expect(allowed.summary).toContain('is open');
  });
});
