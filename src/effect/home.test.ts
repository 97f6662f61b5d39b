import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gridOfPixels } from '../repeat/grid.ts';
import { parseLayout } from '../repeat/layout.ts';
import type { Band } from './effect.ts';
import { addInRuns, homeParts, runLength, STRIP, stripsOf } from './home.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'] as const;

function gridOf(layout: string, width: number, height: number) {
  return gridOfPixels(
    { layout: parseLayout(layout), width: width * 0.3, height: height * 0.3 },
    width,
    height,
  );
}

/** For each pixel of the band, the pixel of the box it is a copy of; or -1 where no part covers it. */
function homesOf(band: Band, layout: string, width: number, height: number): Int32Array {
  const grid = gridOf(layout, width, height);
  const homes = new Int32Array(band.width * band.height).fill(-1);
  for (const part of homeParts(band, grid.box.lattice)) {
    for (let j = 0; j < part.height; j++) {
      for (let i = 0; i < part.width; i++) {
        const k = part.at + j * band.width + i;
        expect(homes[k]).toBe(-1);
        expect(part.x + i).toBeLessThan(width);
        expect(part.y + j).toBeLessThan(height);
        homes[k] = part.x + i + (part.y + j) * width;
      }
    }
  }
  return homes;
}

describe('the parts of a band', () => {
  it('cover it once, each pixel as its copy in the box', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...LAYOUTS),
        fc.integer({ min: -90, max: 90 }),
        fc.integer({ min: -90, max: 90 }),
        fc.integer({ min: 1, max: 70 }),
        fc.integer({ min: 1, max: 50 }),
        (layout, x, y, width, height) => {
          const band = { x, y, width, height, mmPerPixelX: 0.3, mmPerPixelY: 0.3 };
          const homes = homesOf(band, layout, 30, 20);
          const { ax, ay, bx, by } = gridOf(layout, 30, 20).lattice;
          homes.forEach((home, k) => {
            // A pixel and its home differ by whole vectors of the lattice.
            const dx = x + (k % width) - (home % 30);
            const dy = y + Math.floor(k / width) - Math.floor(home / 30);
            const area = ax * by - ay * bx;
            expect(Math.abs((dx * by - dy * bx) % area)).toBe(0);
            expect(Math.abs((dy * ax - dx * ay) % area)).toBe(0);
          });
        },
      ),
      { numRuns: 40 },
    );
  });

  it('are whole copies of a box smaller than the band', () => {
    const band = { x: 0, y: 0, width: 4, height: 4, mmPerPixelX: 0.3, mmPerPixelY: 0.3 };
    expect([...homesOf(band, 'drop:1/2', 2, 2)]).toEqual([0, 1, 2, 3, 2, 3, 0, 1, 0, 1, 2, 3, 2, 3, 0, 1]);
  });

  it('still cover a band whose lattice misses whole pixels', () => {
    const lattice = { ax: 7.13, ay: 2.05, bx: 0, by: 4.1 };
    const parts = homeParts(
      { x: -9, y: 3, width: 80, height: 40, mmPerPixelX: 0.3, mmPerPixelY: 0.3 },
      lattice,
    );
    const covered = parts.reduce((sum, part) => sum + part.width * part.height, 0);
    expect(covered).toBe(80 * 40);
  });
});

describe('rows filled in runs', () => {
  // A sum carried on from point to point, as rows of noise are: its last bits tell where it began.
  const fill = (x: number, width: number) => {
    const row = new Float32Array(runLength(width)).fill(9);
    const from = addInRuns(x, width, row, (pixel, count, offset) => {
      let sum = Math.sin(pixel);
      for (let k = 0; k < count; k++, sum += 0.1) row[offset + k] += sum;
    });
    return row.slice(from, from + width);
  };
  it('have the same bits wherever they begin', () => {
    const whole = fill(-700, 1400);
    for (const [x, width] of [
      [-700, 1],
      [-257, 300],
      [255, 2],
      [3, 513],
    ]) {
      expect(fill(x, width)).toEqual(whole.subarray(700 + x, 700 + x + width));
    }
  });
  it('keep the part of a pixel by which they are off', () => {
    const row = new Float32Array(runLength(3));
    const from = addInRuns(256.25, 3, row, (pixel, count, offset) => {
      for (let k = 0; k < count; k++) row[offset + k] += pixel + k;
    });
    expect([...row.subarray(from, from + 3)]).toEqual([256.25, 257.25, 258.25]);
  });
});

describe('the strips of a band', () => {
  it('cover it once, and rows of every copy begin at the same places of the box', () => {
    const [width, height] = [2600, 12];
    const grid = gridOf('drop:1/2', width, height);
    const starts = new Set<number>();
    for (const [x, y] of [
      [-700, -5],
      [1900, 3],
      [5300, 40],
    ]) {
      const band = { x, y, width: 3000, height: 9, mmPerPixelX: 0.3, mmPerPixelY: 0.3 };
      const homes = homesOf(band, 'drop:1/2', width, height);
      const covered = new Int32Array(homes.length).fill(-1);
      for (const strip of stripsOf(band, grid.box.lattice)) {
        const first = Math.round(strip.x0 / 0.3 - 0.5);
        starts.add(first);
        expect(strip.x0).toBe((first + 0.5) * 0.3);
        expect(strip.count).toBeLessThanOrEqual(STRIP);
        for (let j = 0; j < strip.height; j++) {
          for (let i = strip.skip; i < strip.count; i++) {
            const k = strip.at + j * band.width + i - strip.skip;
            expect(covered[k]).toBe(-1);
            covered[k] = first + i + (strip.y + j) * width;
          }
        }
      }
      expect(covered).toEqual(homes);
    }
    expect([...starts].sort((a, b) => a - b)).toEqual([0, STRIP, 2 * STRIP]);
  });
});
