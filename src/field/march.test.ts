import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { type Box, boxOf } from '../repeat/repeat.ts';
import { march } from './march.ts';
import { latticeNoise, NOISE_DEVIATION } from './noise.ts';
import { addNoiseRow } from './noise-row.ts';
import { cellIndex, type FieldShape, fieldShape } from './periodic.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/3'];
const boxFor = (layout: string, width: number, height: number) =>
  boxOf({ layout: parseLayout(layout), width, height });
const even = ({ width, height }: FieldShape, value = 1) => new Float32Array(width * height).fill(value);

interface Seeds {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly start: Float64Array;
}

function seedsIn(box: Box, count: number, name: string, spread = 0): Seeds {
  const random = randomStream(name, 'seeds');
  const draw = (high: number) => Float64Array.from({ length: count }, () => random.between(0, high));
  return { x: draw(box.width), y: draw(box.height), start: draw(spread) };
}

/** exp of noise with cells of about 3 mm: a wash that is crossed at speeds from a third to three times the mean. */
function unevenSlowness(box: Box, shape: FieldShape, name: string): Float32Array {
  const noise = latticeNoise(box.lattice, { along: 3, across: 3 }, randomStream(name, 'slowness'));
  const values = even(shape, 0);
  for (let j = 0; j < shape.height; j++) {
    const y = (j + 0.5) * shape.mmPerCellY;
    addNoiseRow(
      noise,
      shape.mmPerCellX / 2,
      shape.mmPerCellX,
      y,
      0.6 / NOISE_DEVIATION,
      values,
      shape.width,
      j * shape.width,
    );
  }
  return values.map(Math.exp);
}

/** Earliest arrival over all seeds and copies at speed 1, by trying them all. */
function exactArrival({ lattice }: Box, seeds: Seeds, x: number, y: number) {
  let [time, winner, second] = [Number.POSITIVE_INFINITY, -1, Number.POSITIVE_INFINITY];
  for (let k = 0; k < seeds.x.length; k++) {
    let own = Number.POSITIVE_INFINITY;
    for (let m = -2; m <= 2; m++)
      for (let n = -2; n <= 2; n++) {
        const dx = seeds.x[k] + m * lattice.ax + n * lattice.bx - x;
        const dy = seeds.y[k] + m * lattice.ay + n * lattice.by - y;
        own = Math.min(own, seeds.start[k] + Math.hypot(dx, dy));
      }
    if (own < time) [time, winner, second] = [own, k, time];
    else second = Math.min(second, own);
  }
  return { time, winner, second };
}

describe.each(LAYOUTS)('fast marching over %s', (layout) => {
  const box = boxFor(layout, 31, 23);
  const shape = fieldShape(box, 0.25);

  it('gives the distance on the torus to within 1.1 cells, and the nearest seed', () => {
    const seeds = seedsIn(box, 5, layout, 4);
    const { times, winners, reached } = march(shape, even(shape), seeds);
    expect(reached).toBe(times.length);
    let largest = 0;
    let [wrong, clear] = [0, 0];
    for (let j = 0; j < shape.height; j += 3) {
      for (let i = 0; i < shape.width; i += 3) {
        const exact = exactArrival(box, seeds, (i + 0.5) * shape.mmPerCellX, (j + 0.5) * shape.mmPerCellY);
        const cell = i + j * shape.width;
        largest = Math.max(largest, Math.abs(times[cell] - exact.time));
        if (exact.second - exact.time < 0.25) continue;
        clear++;
        if (winners[cell] !== exact.winner) wrong++;
      }
    }
    expect(largest).toBeLessThan(1.1 * 0.25);
    // Fronts that meet at a glancing angle part along a line that follows the cells.
    expect(wrong / clear).toBeLessThan(0.015);
  });

  it('moves with its domain, bit for bit', () => {
    // Cells of 1/4 mm: moving by whole cells rounds nothing.
    const cells: FieldShape = {
      ...fieldShape(boxFor(layout, 30, 30), 0.25),
      mmPerCellX: 0.25,
      mmPerCellY: 0.25,
    };
    const [right, down] = [37, 71];
    const seeds = seedsIn(boxFor(layout, 30, 30), 40, layout, 3);
    for (const name of ['x', 'y'] as const)
      for (let k = 0; k < 40; k++) seeds[name][k] = Math.round(seeds[name][k] * 64) / 64;
    const moved = {
      ...seeds,
      x: seeds.x.map((x) => x + right * 0.25),
      y: seeds.y.map((y) => y + down * 0.25),
    };
    for (const slowness of [even(cells), unevenSlowness(boxFor(layout, 30, 30), cells, layout)]) {
      const home = march(cells, slowness, seeds, { until: 6 });
      const away = march(cells, shifted(cells, slowness, right, down), moved, { until: 6 });
      expect(away.times).toEqual(shifted(cells, home.times, right, down));
      expect(away.winners).toEqual(shifted(cells, home.winners, right, down));
    }
  });
});

function shifted<T extends Float32Array | Int32Array>(
  shape: FieldShape,
  values: T,
  right: number,
  down: number,
): T {
  const moved = values.slice() as T;
  for (let j = 0; j < shape.height; j++)
    for (let i = 0; i < shape.width; i++)
      moved[cellIndex(shape, i + right, j + down)] = values[i + j * shape.width];
  return moved;
}

describe('fast marching', () => {
  const box = boxFor('drop:1/2', 40, 40);
  const shape = fieldShape(box, 0.25);
  const slowness = unevenSlowness(box, shape, 'wash');
  const seeds = seedsIn(box, 12, 'wash', 5);
  const { times, winners, reached } = march(shape, slowness, seeds);

  // Sethian 1996: the scheme is of first order, so that half the cell has about half the error.
  it('errs half as much on cells half the size', () => {
    const errorOf = (mmPerCell: number) => {
      const grid = fieldShape(box, mmPerCell);
      const one = { x: Float64Array.of(20), y: Float64Array.of(20), start: Float64Array.of(0) };
      const arrived = march(grid, even(grid), one);
      let sum = 0;
      for (let k = 0; k < arrived.times.length; k++) {
        const x = ((k % grid.width) + 0.5) * grid.mmPerCellX;
        const y = (Math.floor(k / grid.width) + 0.5) * grid.mmPerCellY;
        sum += Math.abs(arrived.times[k] - exactArrival(box, one, x, y).time);
      }
      return sum / arrived.times.length;
    };
    const ratio = errorOf(0.5) / errorOf(0.25);
    expect(ratio).toBeGreaterThan(1.5);
    expect(ratio).toBeLessThan(2.3);
  });

  it('reaches a cell from an earlier one of the same seed', () => {
    const isNearSeed = new Uint8Array(times.length);
    for (let k = 0; k < seeds.x.length; k++)
      for (let j = -3; j <= 3; j++)
        for (let i = -3; i <= 3; i++)
          isNearSeed[
            cellIndex(
              shape,
              Math.floor(seeds.x[k] / shape.mmPerCellX) + i,
              Math.floor(seeds.y[k] / shape.mmPerCellY) + j,
            )
          ] = 1;
    let checked = 0;
    for (let k = 0; k < times.length; k++) {
      if (isNearSeed[k]) continue;
      const [i, j] = [k % shape.width, Math.floor(k / shape.width)];
      let isHandedOn = false;
      for (let n = 0; n < 9; n++) {
        const cell = cellIndex(shape, i + (n % 3) - 1, j + Math.floor(n / 3) - 1);
        if (times[cell] < times[k] && winners[cell] === winners[k]) isHandedOn = true;
      }
      expect(isHandedOn).toBe(true);
      checked++;
    }
    expect(checked).toBeGreaterThan(20_000);
  });

  it('takes twice as long at half the speed', () => {
    const still = { x: seeds.x, y: seeds.y };
    const slow = march(
      shape,
      slowness.map((s) => 2 * s),
      still,
    );
    expect(slow.times).toEqual(march(shape, slowness, still).times.map((time) => 2 * time));
  });

  it('stops at the time it is given, and changes nothing before', () => {
    const until = 4;
    const short = march(shape, slowness, seeds, { until });
    expect(short.reached).toBeGreaterThan(1000);
    expect(short.reached).toBeLessThan(reached / 2);
    for (let k = 0; k < times.length; k++) {
      const isReached = times[k] <= until;
      expect(short.times[k]).toBe(isReached ? times[k] : Number.POSITIVE_INFINITY);
      expect(short.winners[k]).toBe(isReached ? winners[k] : -1);
    }
  });

  it('goes round a wall', () => {
    const walled = even(shape);
    for (let j = 20; j < shape.height - 20; j++) walled[80 + j * shape.width] = Number.POSITIVE_INFINITY;
    const arrived = march(shape, walled, { x: [19], y: [20] });
    const cell = 82 + 80 * shape.width;
    expect(arrived.times[80 + 80 * shape.width]).toBe(Number.POSITIVE_INFINITY);
    // Round an end of the wall, 15 mm off: twice that and a little.
    expect(arrived.times[cell]).toBeGreaterThan(29.5);
    expect(arrived.times[cell]).toBeLessThan(31.5);
  });

  it('has nothing to do without seeds', () => {
    const none = march(shape, slowness, { x: [], y: [] });
    expect([none.reached, none.times[7], none.winners[7]]).toEqual([0, Number.POSITIVE_INFINITY, -1]);
  });

  it('refuses what is no slowness or no start, with names', () => {
    expect(() => march(shape, new Float32Array(3), seeds)).toThrow('the slowness of a march');
    expect(() => march(shape, slowness, { x: [0, 1], y: [0, 1], start: [0, Number.NaN] })).toThrow('seed 1');
  });
});
