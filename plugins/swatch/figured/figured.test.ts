import { boxOf, modulo, parseLayout, randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import type { Level, Prepared } from '../way.ts';
import { grow } from './grow.ts';
import { figured } from './index.ts';
import type { Model } from './model.ts';
import { planOf } from './plan.ts';
import { BARE, Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';

const MM = 0.2;

/** Round stones of many sizes, drawn from the seed; over a torus of its own where `closes`. */
function stones(width: number, height: number, closes = false): Level {
  const random = randomStream('stones', 'test');
  const found: [number, number, number, number][] = [];
  const apart = (d: number, size: number) =>
    closes ? Math.abs(d - size * Math.round(d / size)) : Math.abs(d);
  for (let k = 0; k < 3000; k++) {
    const one: [number, number, number, number] = [
      random.between(0, width),
      random.between(0, height),
      random.between(3, 11),
      random.between(0.4, 0.9),
    ];
    const free = ([x, y, r]: number[]) =>
      Math.hypot(apart(x - one[0], width), apart(y - one[1], height)) > r + one[2];
    if (found.every(free)) found.push(one);
  }
  const values = new Float32Array(width * height).fill(0.12);
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      for (const [x, y, r, tone] of found) {
        const d = Math.hypot(apart(x - i - 0.5, width), apart(y - j - 0.5, height));
        if (d < r) values[i + j * width] = 0.12 + (tone - 0.12) * Math.min(1, (r - d) / 1.5);
      }
    }
  }
  return { width, height, mmPerSample: MM, planes: [values] };
}

function halved({ width, height, mmPerSample, planes }: Level): Level {
  const [w, h] = [width >> 1, height >> 1];
  const half = planes.map((values) =>
    Float32Array.from({ length: w * h }, (_, k) => {
      const at = 2 * (k % w) + 2 * Math.floor(k / w) * width;
      return (values[at] + values[at + 1] + values[at + width] + values[at + width + 1]) / 4;
    }),
  );
  return { width: w, height: h, mmPerSample: 2 * mmPerSample, planes: half };
}

function preparedOf(
  finest: Level,
  layout: string,
  width: number,
  height: number,
  given: Partial<Prepared> = {},
): Prepared {
  const levels = [finest];
  while (Math.min(levels.at(-1)!.width, levels.at(-1)!.height) >= 16) levels.push(halved(levels.at(-1)!));
  return {
    levels,
    width: finest.width * finest.mmPerSample,
    height: finest.height * finest.mmPerSample,
    box: boxOf({ layout: parseLayout(layout), width, height }),
    turned: false,
    mirrored: false,
    quality: 'finished',
    random: (name) => randomStream('quarry', name),
    progress() {},
    ...given,
  };
}

function painted(model: Model, x: number, y: number, width: number, height: number, mm = MM): Float32Array {
  const plane = new Float32Array(width * height);
  figured.paint(model, { x, y, width, height, mmPerPixelX: mm, mmPerPixelY: mm }, [plane]);
  return plane;
}

const SWATCH = stones(150, 140);
const GROWN = new Map<string, Model>();
function grown(layout: string): Model {
  if (!GROWN.has(layout)) GROWN.set(layout, figured.prepare(preparedOf(SWATCH, layout, 72, 60)));
  return GROWN.get(layout)!;
}

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'];

describe.each(LAYOUTS)('a figured swatch over %s', (layout) => {
  it('closes: no edge of the box shows more than the lines inside, where an open one would', () => {
    const [width, height] = [360, 300];
    const plane = painted(grown(layout), -1, -1, width + 1, height + 1);
    const stride = width + 1;
    const step = (a: number, b: number) => (Math.sqrt(plane[a]) - Math.sqrt(plane[b])) ** 2;
    const across = (i: number, other: number) => {
      let sum = 0;
      for (let j = 1; j <= height; j++) sum += step(i + j * stride, other + j * stride);
      return sum;
    };
    const down = (j: number, other: number) => {
      let sum = 0;
      for (let i = 1; i <= width; i++) sum += step(i + j * stride, i + other * stride);
      return sum;
    };
    const insideX = Math.max(...Array.from({ length: width - 1 }, (_, i) => across(i + 2, i + 1)));
    const insideY = Math.max(...Array.from({ length: height - 1 }, (_, j) => down(j + 2, j + 1)));
    expect(across(1, 0)).toBeLessThan(1.25 * insideX);
    expect(down(1, 0)).toBeLessThan(1.25 * insideY);
    expect(across(1, width / 2)).toBeGreaterThan(1.25 * insideX);
    expect(down(1, height / 2)).toBeGreaterThan(1.25 * insideY);
  });
  it('has the same bytes at every copy of the box and in every band', () => {
    const model = grown(layout);
    const { lattice } = model.box;
    const whole = painted(model, 0, 0, 360, 300);
    const [ax, ay, bx, by] = [lattice.ax, lattice.ay, lattice.bx, lattice.by].map((mm) =>
      Math.round(mm / MM),
    );
    for (const [m, n] of [
      [1, 0],
      [0, 1],
      [-2, 3],
    ]) {
      const part = painted(model, m * ax + n * bx + 11, m * ay + n * by + 7, 90, 80);
      for (let j = 0; j < 80; j++) {
        const own = part.subarray(j * 90, (j + 1) * 90);
        expect(own).toEqual(whole.subarray(11 + (j + 7) * 360, 101 + (j + 7) * 360));
      }
    }
  });
  it('looks nowhere but inside the swatch', () => {
    const { piece, places, movedX, movedY, width, height, mmPerCellX, mmPerCellY } = grown(layout);
    for (let j = 0; j < height; j++) {
      for (let i = 0; i < width; i++) {
        const k = i + 1 + (j + 1) * (width + 2);
        const x = (i + 0.5) * mmPerCellX + movedX[k];
        const y = (j + 0.5) * mmPerCellY + movedY[k];
        const [a, b, c, d, e, f] = places.subarray(6 * piece[k], 6 * piece[k] + 6);
        const [sx, sy] = [a * x + b * y + c, d * x + e * y + f];
        expect(sx > 0 && sx < SWATCH.width * MM && sy > 0 && sy < SWATCH.height * MM, `${i},${j}`).toBe(true);
      }
    }
  });
});

describe('a figured swatch', () => {
  it('is the same from the same seed, another from another', () => {
    const of = (seed: string) =>
      figured.prepare(
        preparedOf(SWATCH, 'straight', 50, 40, {
          quality: 'sketch',
          random: (name) => randomStream(seed, name),
        }),
      );
    expect(of('a')).toEqual(of('a'));
    expect(of('a').piece).not.toEqual(of('b').piece);
  });
  it('has joins that cost a fifth of those of plain squares at most, and less after mending', () => {
    const prepared = preparedOf(SWATCH, 'drop:1/2', 72, 60);
    const plan = planOf(prepared);
    const { quilt, covered, mended } = grow(prepared, plan);
    expect(quilt.piece.includes(BARE)).toBe(false);
    expect(mended).toBeLessThan(covered);
    const random = randomStream('squares', '');
    const squares = new Quilt(quilt.shape, quilt.sheets, quilt.count);
    const side = 25;
    for (let y = 0; y < plan.shape.height; y += side) {
      for (let x = 0; x < plan.shape.width; x += side) {
        const sheet = quilt.sheets[0];
        const ox = FINE + random.below(sheet.width - FINE * (side + 2)) - FINE * x;
        const oy = FINE + random.below(sheet.height - FINE * (side + 2)) - FINE * y;
        for (let j = y; j < Math.min(y + side, plan.shape.height); j++) {
          for (let i = x; i < Math.min(x + side, plan.shape.width); i++) {
            squares.piece[i + j * plan.shape.width] = squares.pieceOf(0, ox, oy);
          }
        }
      }
    }
    let cost = 0;
    for (let k = 0; k < squares.piece.length; k++) cost += squares.joinCost(k);
    expect(mended).toBeLessThan(cost / 5);
  });
  it('comes through unchanged where it closes over the box as it stands', () => {
    const closed = stones(150, 140, true);
    const model = figured.prepare(preparedOf(closed, 'straight', 30, 28));
    expect(model.closed).toBe(true);
    const plane = painted(model, -40, 33, 150, 140);
    const off = plane.map((value, k) => {
      const i = modulo((k % 150) - 40, 150);
      const j = modulo(Math.floor(k / 150) + 33, 140);
      return Math.abs(value - closed.planes[0][i + j * 150]);
    });
    expect(Math.max(...off)).toBeLessThan(1e-5);
    expect(figured.prepare(preparedOf(SWATCH, 'straight', 30, 28, { quality: 'sketch' })).closed).toBe(false);
  });
  it('looks at a quarter of the density as it does from further away', () => {
    const model = grown('drop:1/2');
    const fine = painted(model, 0, 0, 360, 300);
    const coarse = painted(model, 0, 0, 90, 75, 4 * MM);
    const mean = fine.reduce((sum, value) => sum + value, 0) / fine.length;
    let off = 0;
    let spread = 0;
    for (let j = 0; j < 75; j++) {
      for (let i = 0; i < 90; i++) {
        let sum = 0;
        for (let y = 0; y < 4; y++)
          for (let x = 0; x < 4; x++) sum += fine[4 * i + x + (4 * j + y) * 360] / 16;
        off += (sum - coarse[i + j * 90]) ** 2;
        spread += (sum - mean) ** 2;
      }
    }
    expect(Math.sqrt(off / spread)).toBeLessThan(0.12);
  });
  it('grows from what is flat, long or hardly there', () => {
    const flat = { width: 60, height: 40, mmPerSample: MM, planes: [new Float32Array(2400).fill(0.4)] };
    const plane = painted(figured.prepare(preparedOf(flat, 'brick:1/2', 20, 18)), 0, 0, 100, 90);
    for (const value of plane) expect(value).toBeCloseTo(0.4, 5);
    for (const [width, height] of [
      [400, 8],
      [12, 12],
    ]) {
      const given = preparedOf(stones(width, height), 'drop:1/2', 9, 6, { quality: 'sketch' });
      const some = painted(figured.prepare(given), 0, 0, 60, 50);
      expect(some.every((value) => value >= 0 && value < 1.2)).toBe(true);
    }
  });
  it('has turned and mirrored pieces only where they are allowed', () => {
    const ways = (given: Partial<Prepared>) => {
      const { places } = figured.prepare(
        preparedOf(SWATCH, 'straight', 50, 40, { quality: 'sketch', ...given }),
      );
      const seen = new Set<string>();
      for (let k = 0; k < places.length; k += 6) seen.add([places[k], places[k + 1], places[k + 3]].join());
      return seen.size;
    };
    expect(ways({})).toBe(1);
    expect(ways({ mirrored: true })).toBe(2);
    expect(ways({ turned: true })).toBeGreaterThan(2);
  });
  it('uses its parts alike, and none soon again', () => {
    const { comesBack } = grown('drop:1/2');
    expect(comesBack.nearest).toBeGreaterThan(1.68);
    expect(figured.comesBack(grown('drop:1/2'))).toBe(comesBack.nearest);
    expect(comesBack.most).toBeLessThan(20);
    expect(comesBack.shown).toBeGreaterThan(0.6);
  });
});
