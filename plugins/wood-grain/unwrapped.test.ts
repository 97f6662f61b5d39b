import { describe, expect, it } from 'vitest';
import { bandOf, type Given, painted, prepared } from '../testing/wood-grain.ts';
import type { WoodModel } from './model.ts';
import type { Placement } from './piece.ts';

/**
 * Paint always works from the place in the box, so that copies are the same bytes; that alone would
 * hide a seam at the box's edge. Here the grain is drawn straight on beyond the edge instead: what lies
 * there must be what the repeat brings.
 */
function unwrapped(model: WoodModel, reach: number): WoodModel {
  const [whole] = model.placements;
  const { ax, by } = model.lattice;
  const wider: Placement = {
    ...whole,
    left: { ...whole.left, at: -reach },
    right: { ...whole.right, at: ax + reach },
    top: -reach,
    bottom: by + reach,
  };
  // A repeat so large, and so placed, that no pixel near the box is wrapped.
  return { ...model, placements: [wider], lattice: { ax: 1e6, ay: 0, bx: 0, by: 1e6 } };
}

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/2', 'brick:2/3'];
const VENEERS: Given[] = [
  { cut: 'plain', species: 'oak' },
  { cut: 'quarter', species: 'oak' },
  { cut: 'plain', species: 'pine', knots: 2.5 },
  { cut: 'rift', species: 'walnut', direction: 'across' },
];

describe.each(LAYOUTS)('a veneer over %s', (layout) => {
  it.each(VENEERS)('runs on over the edges of the repeat: %j', (given) => {
    const mm = 0.25;
    const parameters: Given = { ...given, construction: 'veneer', boardWidth: 50, relief: 0 };
    const { model, box } = prepared(layout, 90, 75, parameters);
    const on = unwrapped(model, 4);
    const [right, bottom] = [Math.round(box.width / mm), Math.round(box.height / mm)];
    for (const [x, y, width, height] of [
      [right - 12, 8, 24, bottom - 24],
      [8, bottom - 12, right - 24, 24],
    ]) {
      const band = bandOf(x, y, width, height, mm);
      const [wrapped, straightOn] = [painted(model, band).tint, painted(on, band).tint];
      let worst = 0;
      for (let k = 0; k < wrapped.length; k++) {
        worst = Math.max(worst, Math.abs(wrapped[k] - straightOn[k]));
      }
      // Rounding of the nodes' 32-bit floats, nothing more: a quarter of an 8-bit level.
      expect(worst).toBeLessThan(0.001);
    }
  });
});

describe('boards', () => {
  it.each(LAYOUTS)('that cross an edge of the repeat come in again where %s says', (layout) => {
    for (const direction of ['upright', 'across'] as const) {
      for (const construction of ['boards', 'leaves', 'painted'] as const) {
        const { model } = prepared(layout, 300, 270, { construction, direction, boardWidth: 40 });
        expectCopies(model);
      }
    }
  });

  /** Each piece, moved by a vector of the repeat, either misses the box or is placed there as well. */
  function expectCopies({ placements, lattice }: WoodModel): void {
    const { ax, ay, bx, by } = lattice;
    let met = 0;
    for (const placement of placements) {
      for (const [du, dv] of [
        [ax, ay],
        [-ax, -ay],
        [bx, by],
        [-bx, -by],
      ]) {
        const [left, right] = [placement.left.at + du, placement.right.at + du];
        const [top, bottom] = [placement.top + dv, placement.bottom + dv];
        if (right <= 1e-6 || left >= ax - 1e-6 || bottom <= 1e-6 || top >= by - 1e-6) continue;
        met++;
        const copy = placements.find(
          (other) =>
            other.piece === placement.piece &&
            Math.abs(other.offsetU - placement.offsetU - du) < 1e-6 &&
            Math.abs(other.offsetV - placement.offsetV - dv) < 1e-6,
        );
        expect(copy).toBeDefined();
      }
    }
    expect(met).toBeGreaterThan(0);
  }

  it('cover every pixel of the box', () => {
    for (const layout of LAYOUTS) {
      const { model } = prepared(layout, 90, 75, { boardWidth: 25, boardLength: 60 });
      const { tint } = painted(model, bandOf(-20, -20, 400, 340, 0.25));
      for (let k = 3; k < tint.length; k += 4) if (tint[k] !== 1) expect.fail(`a hole at ${k}`);
    }
  });
});
