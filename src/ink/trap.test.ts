import { describe, expect, it } from 'vitest';
import { latticeOf, shortestWay } from '../repeat/lattice.ts';
import { type Layout, parseLayout, STRAIGHT } from '../repeat/layout.ts';
import type { Ink } from './card.ts';
import type { Plates } from './plates.ts';
import { tilePlaces } from './tile-place.ts';
import { spreadsUnder, trapPlates } from './trap.ts';

const ink = (name: string, grey: number, covers = true): Ink => ({
  ...{ name, kind: 'ink', colour: [grey, grey, grey], covers, note: '' },
});
const INKS = [ink('straw', 200), ink('leaf', 60)];

/** Areas of the first ink by a shape, 0..1; the second has the rest, or none where `bare`. */
function drawn(
  width: number,
  height: number,
  area: (x: number, y: number) => number,
  bare: (x: number, y: number) => boolean = () => false,
): Plates {
  const planes = INKS.map(() => new Uint8Array(width * height));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const first = Math.round(255 * area(x, y));
      planes[0][y * width + x] = first;
      planes[1][y * width + x] = bare(x, y) ? 0 : 255 - first;
    }
  return { width, height, inks: INKS, planes };
}

const clamp = (value: number) => Math.min(1, Math.max(0, value));
const areaOf = (plane: Uint8Array) => plane.reduce((sum, value) => sum + value, 0) / 255;

describe('a trap', () => {
  it.each([0.4, 1, 1.5, 2.25, 4])('of %s px widens a bar by that at each side', (trap) => {
    const plates = drawn(60, 7, (x) => (x >= 20 && x < 30 ? 1 : 0));
    trapPlates(plates, STRAIGHT, trap);
    expect(areaOf(plates.planes[0]) / 7).toBeCloseTo(10 + 2 * trap, 1);
    // The edge lies a whole trap beyond 30: all of a pixel's area that is nearer is covered.
    for (let x = 30; x < 40; x++) expect(plates.planes[0][x] / 255).toBeCloseTo(clamp(30 + trap - x), 2);
  });

  it.each([1.5, 3, 5])(
    'of %s px makes a disc of radius 20 a disc that much larger, and a corner round',
    (trap) => {
      const disc = (radius: number) => (x: number, y: number) =>
        clamp(radius + 0.5 - Math.hypot(x - 40, y - 40));
      const plates = drawn(80, 80, disc(20));
      trapPlates(plates, STRAIGHT, trap);
      const larger = disc(20 + trap);
      for (let y = 0; y < 80; y++)
        for (let x = 0; x < 80; x++) {
          // Between pixels of the edge the nearest lies up to a quarter of a pixel farther than the circle does.
          expect(Math.abs(plates.planes[0][y * 80 + x] / 255 - larger(x, y)), `${x}, ${y}`).toBeLessThan(0.3);
        }
      expect(Math.sqrt(areaOf(plates.planes[0]) / Math.PI)).toBeCloseTo(20 + trap, 0);
      const square = drawn(60, 60, (x, y) => (x < 30 && y < 30 && x >= 10 && y >= 10 ? 1 : 0));
      trapPlates(square, STRAIGHT, trap);
      for (let y = 30; y < 40; y++)
        for (let x = 30; x < 40; x++)
          expect(square.planes[0][y * 60 + x] / 255).toBeCloseTo(
            clamp(trap + 1 - Math.hypot(x - 29, y - 29)),
            2,
          );
    },
  );

  it('stops at bare ground', () => {
    const plates = drawn(
      60,
      10,
      (x) => (x >= 20 && x < 30 ? 1 : 0),
      (x) => x >= 30,
    );
    const [{ added }] = trapPlates(plates, STRAIGHT, 3);
    expect(plates.planes[0].slice(30, 60).every((value) => value === 0)).toBe(true);
    expect(added).toBeCloseTo(30, 5);
  });

  it.each(['straight', 'half-drop', 'drop:1/3', 'drop:2/5', 'brick', 'brick:1/3', 'brick:2/5'])(
    'goes on over the edges of the tile in layout %s',
    (name) => {
      const layout = parseLayout(name);
      const [width, height] = [60, 60];
      const lattice = latticeOf(layout, width, height);
      const far = (x: number, y: number) => Math.hypot(...shortestWay(lattice, x, y));
      // A dot at the very corner: its spread shows in all four and in what is displaced.
      const plates = drawn(width, height, (x, y) => (far(x, y) === 0 ? 1 : 0));
      trapPlates(plates, layout, 6.3);
      for (let y = 0; y < height; y++)
        for (let x = 0; x < width; x++)
          expect(plates.planes[0][y * width + x], `${x}, ${y}`).toBe(
            Math.round(255 * clamp(7.3 - far(x, y))),
          );
    },
  );

  it.each(['straight', 'half-drop', 'drop:1/3', 'drop:2/5', 'brick', 'brick:1/3', 'brick:2/5'])(
    'is the same, by bytes, wherever layout %s is cut into tiles',
    (name) => {
      const layout = parseLayout(name);
      const [width, height] = [60, 60];
      const place = tilePlaces(layout, width, height);
      const shape = (x: number, y: number) => clamp(14 - Math.hypot(x - 9, y - 52)) * (x % 7 > 1 ? 1 : 0.4);
      const tile = drawn(width, height, shape, (x, y) => x > 40 && y > 20 && y < 40);
      const moved: Plates = { ...tile, planes: tile.planes.map((plane) => movedBy(plane, 23, 17)) };
      function movedBy(plane: Uint8Array, dx: number, dy: number): Uint8Array {
        return plane.map((_, at) => plane[place((at % width) + dx, Math.floor(at / width) + dy)]);
      }
      trapPlates(tile, layout, 2.6);
      trapPlates(moved, layout, 2.6);
      tile.planes.forEach((plane, index) => {
        expect(Buffer.compare(movedBy(plane, 23, 17), moved.planes[index])).toBe(0);
      });
    },
  );

  it.each(['mirror-x', 'mirror-y', 'mirror-xy', 'turn'])('meets its mirror in layout %s', (name) => {
    const layout: Layout = parseLayout(name);
    const plates = drawn(40, 30, (x, y) => (x === 38 && y === 5 ? 1 : 0));
    trapPlates(plates, layout, 6);
    const alone = drawn(40, 30, (x, y) => (x === 38 && y === 5 ? 1 : 0));
    trapPlates(alone, STRAIGHT, 6);
    // In a straight repeat it comes in again at the left; here it comes back at the right, or turned at the left.
    expect(plates.planes[0][5 * 40] > 0).toBe(name === 'mirror-y');
    expect(alone.planes[0][5 * 40]).toBeGreaterThan(0);
    if (name === 'turn') expect(plates.planes[0][24 * 40 + 39]).toBe(255);
  });

  it('says where motifs are narrower than two traps, and how wide they are', () => {
    const bars = (gap: number) => drawn(60, 20, (x) => (x % 20 >= gap ? 1 : 0));
    expect(trapPlates(bars(5), STRAIGHT, 3)[0].narrow).toBe(5);
    expect(trapPlates(bars(7), STRAIGHT, 3)[0].narrow).toBeUndefined();
  });

  it('spreads the earlier under one that hides it, the lighter under one that does not', () => {
    const [light, dark] = [ink('light', 200), ink('dark', 50)];
    expect(spreadsUnder([light, dark], 0)).toEqual([1]);
    expect(spreadsUnder([dark, light], 0)).toEqual([1]);
    const through = { ...light, covers: false };
    expect(spreadsUnder([dark, through], 0)).toEqual([]);
    expect(spreadsUnder([dark, through], 1)).toEqual([0]);
  });
});
