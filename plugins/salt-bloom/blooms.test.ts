import { type Arrivals, cellIndex, fieldShape, randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { meanOf } from '../testing/measure.ts';
import { boxFor } from '../testing/salt-bloom.ts';
import { growBlooms } from './blooms.ts';
import type { Grains } from './grains.ts';
import { leaveVeins } from './veins.ts';

const box = boxFor({ layout: 'drop:1/2', width: 30, height: 30 });

/** Grains alike in all but place. */
function grainsAt(places: readonly (readonly [number, number])[], reach: number, feather = 0.7): Grains {
  const all = (value: number) => new Float64Array(places.length).fill(value);
  return {
    x: Float64Array.from(places, ([x]) => x),
    y: Float64Array.from(places, ([, y]) => y),
    size: all(1),
    reach: all(reach),
    pull: all(1),
    feather: all(feather),
    wet: all(0.5),
    blur: all(1),
    speck: all(0),
  };
}

function grow(grains: Grains, mmPerCell: number, seed = 'grow') {
  const shape = fieldShape(box, mmPerCell);
  return {
    shape,
    ...growBlooms(
      grains,
      box,
      shape,
      (name) => randomStream(seed, name),
      () => {},
    ),
  };
}

describe.each([0.16, 0.4])('a bloom on cells of %d mm', (mmPerCell) => {
  it.each([2, 4, 7])('covers about the disc of its reach, %d mm', (reach) => {
    const areas = [...'abcdefghijklmnop'].map((seed) => {
      const { arrivals, shape } = grow(grainsAt([[15, 15]], reach), mmPerCell, seed);
      return arrivals.times.filter((time) => time < 0).length * shape.mmPerCellX * shape.mmPerCellY;
    });
    expect(Math.abs(meanOf(areas) / (Math.PI * reach * reach) - 1)).toBeLessThan(0.3);
  });

  it('is palest about its heart and fades outward', () => {
    const { lift, shape } = grow(grainsAt([[15, 15]], 6), mmPerCell);
    const rings = [0, 1, 2, 3, 4, 5].map((ring) =>
      meanOf(
        lift.filter((_, k) => {
          const dx = ((k % shape.width) + 0.5) * shape.mmPerCellX - 15;
          const dy = (Math.floor(k / shape.width) + 0.5) * shape.mmPerCellY - 15;
          return Math.floor(Math.hypot(dx, dy)) === ring;
        }),
      ),
    );
    for (let ring = 2; ring < rings.length; ring++) expect(rings[ring]).toBeLessThan(rings[ring - 1]);
    expect(rings[5]).toBeLessThan(rings[1] / 3);
    expect(rings[0]).toBeGreaterThan(rings[2]);
  });
});

describe('feathering', () => {
  it('turns a round bloom into arms: the lift differs more round a circle', () => {
    const roughness = (feather: number) => {
      const { lift, shape } = grow(grainsAt([[15, 15]], 6, feather), 0.16);
      const circle = Array.from({ length: 200 }, (_, k) => {
        const angle = (k * Math.PI) / 100;
        const column = Math.floor((15 + 3 * Math.cos(angle)) / shape.mmPerCellX);
        return lift[cellIndex(shape, column, Math.floor((15 + 3 * Math.sin(angle)) / shape.mmPerCellY))];
      });
      const mean = meanOf(circle);
      return Math.sqrt(meanOf(circle.map((value) => (value - mean) ** 2))) / mean;
    };
    expect(roughness(1)).toBeGreaterThan(1.3 * roughness(0));
  });
});

describe('veins', () => {
  const shape = fieldShape(box, 0.25);
  const [width, count] = [shape.width, shape.width * shape.height];
  /** Two blooms meet along column 60; the upper half of the line was reached too late. */
  const arrivals: Arrivals = {
    times: Float32Array.from({ length: count }, (_, k) => (k < count / 2 ? 0.5 : -1)),
    winners: Int32Array.from({ length: count }, (_, k) => (k % width < 60 ? 0 : 1)),
    reached: count,
  };
  const thinned = (strength: number) => {
    const lift = new Float32Array(count).fill(1);
    leaveVeins(lift, shape, arrivals, strength);
    return lift;
  };

  it('keep paint where two fronts met in time, and nowhere else', () => {
    const lift = thinned(1);
    const below = Math.floor(shape.height * 0.75) * width;
    const above = Math.floor(shape.height * 0.25) * width;
    expect([lift[below + 58], lift[below + 61]]).toEqual([1, 1]);
    expect(lift[below + 59]).toBeLessThan(0.9);
    expect(lift[below + 60]).toBe(lift[below + 59]);
    expect(lift[above + 59]).toBe(1);
  });

  it('keep more the stronger they are, as much on cells of any size', () => {
    expect(meanOf(thinned(1))).toBeLessThan(meanOf(thinned(0.5)));
    expect(meanOf(thinned(0))).toBe(1);
    const kept = [0.16, 0.4].map((mmPerCell) => {
      const grown = grow(
        grainsAt(
          [
            [11, 15],
            [18, 15],
          ],
          6,
        ),
        mmPerCell,
      );
      const whole = grown.lift.map(() => 1);
      leaveVeins(whole, grown.shape, grown.arrivals, 1);
      return (1 - meanOf(whole)) * 900;
    });
    // A vein some 9 mm long and 0.15 mm wide; it winds.
    expect(kept[0]).toBeGreaterThan(0.8);
    expect(Math.abs(kept[0] / kept[1] - 1)).toBeLessThan(0.6);
  });
});
