import { ssim } from 'ssim.js';
import { describe, expect, it } from 'vitest';
import { bandOf, type Given, painted, prepared } from '../testing/wood-grain.ts';

const INCH = 25.4;
const SIZE = 220;

/** The wood as 8-bit RGBA at `times` 75 dpi, box-filtered down to 75 dpi. */
function seenAt75(given: Given, times: number) {
  const millimetres = (SIZE * INCH) / 75;
  const { model } = prepared('straight', millimetres, millimetres, { ...given, boardWidth: 40 });
  const across = SIZE * times;
  const { tint, shade } = painted(model, bandOf(0, 0, across, across, INCH / 75 / times));
  const sums = new Float64Array(SIZE * SIZE * 4);
  for (let y = 0; y < across; y++) {
    for (let x = 0; x < across; x++) {
      const at = y * across + x;
      const to = (Math.floor(y / times) * SIZE + Math.floor(x / times)) * 4;
      for (let c = 0; c < 3; c++) sums[to + c] += (tint[at * 4 + c] * shade[at] * 255) / (times * times);
      sums[to + 3] = 255;
    }
  }
  return { width: SIZE, height: SIZE, data: Uint8ClampedArray.from(sums), sums };
}

describe.each<Given>([
  {},
  { cut: 'quarter' },
  { construction: 'veneer', species: 'walnut' },
  { species: 'pine', knots: 2 },
  { species: 'ash', construction: 'leaves' },
  { construction: 'painted', ringWidth: 4.2 },
])('wood of %j at 75 dpi', (given) => {
  const [near, far] = [seenAt75(given, 4), seenAt75(given, 1)];

  // Structural similarity: Wang et al., Image quality assessment (2004), by ssim.js.
  it('looks as it does at 300 dpi from further away', () => {
    expect(ssim(near as never, far as never).mssim).toBeGreaterThan(0.95);
  });

  it('keeps its mean colour within half a level', () => {
    for (let c = 0; c < 3; c++) {
      let difference = 0;
      for (let k = c; k < near.sums.length; k += 4) difference += near.sums[k] - far.sums[k];
      expect(Math.abs(difference) / (SIZE * SIZE)).toBeLessThan(0.5);
    }
  });
});
