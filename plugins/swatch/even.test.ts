import { boxOf, parseLayout, randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { EVEN } from './even/index.ts';
import { pyramidOf } from './pyramid.ts';
import { clouds, distance, likenessOf, spectrumOf, spotted } from './testing.ts';
import type { Level, Prepared } from './way.ts';

const MM = 0.2;

function prepared(level: Level, layout: string, width: number, height: number, rest: Partial<Prepared> = {}) {
  const box = boxOf({ layout: parseLayout(layout), width, height });
  const handed: Prepared = {
    levels: pyramidOf(level),
    width: level.width * level.mmPerSample,
    height: level.height * level.mmPerSample,
    box,
    turned: false,
    mirrored: false,
    quality: 'finished',
    random: (name) => randomStream('1', name),
    progress: () => {},
    ...rest,
  };
  return handed;
}

function painted(handed: Prepared, x: number, y: number, width: number, height: number, mm = MM) {
  const model = EVEN.prepare(handed);
  const planes = handed.levels[0].planes.map(() => new Float32Array(width * height));
  EVEN.paint(model, { x, y, width, height, mmPerPixelX: mm, mmPerPixelY: mm }, planes);
  return planes;
}

describe('the histogram', () => {
  // Heitz and Neyret 2018, figure 2: plain blending loses contrast, and with it the histogram.
  it('is kept three times better than plain blending keeps it', () => {
    const swatch = spotted(400, MM);
    const [plane] = painted(prepared(swatch, 'straight', 80, 80), 0, 0, 400, 400);
    const grown = distance(swatch.planes[0], plane);
    const plain = distance(swatch.planes[0], plainlyBlended(swatch));
    expect(plain).toBeGreaterThan(0.01);
    expect(grown).toBeLessThan(plain / 3);
  });

  it('is kept at a quarter of the density', () => {
    const swatch = spotted(400, MM);
    const handed = prepared(swatch, 'straight', 80, 80);
    const [plane] = painted(handed, 0, 0, 100, 100, 4 * MM);
    const quarter = handed.levels[2].planes[0];
    const between = distance(quarter.subarray(0, quarter.length / 2), quarter.subarray(quarter.length / 2));
    expect(distance(quarter, plane)).toBeLessThan(Math.max(0.012, 2 * between));
  });
});

/** The mean of three pieces of a swatch, by the weights that the net gives, without the bell curve. */
function plainlyBlended({ width, planes: [plane] }: Level): Float32Array {
  const blended = new Float32Array(plane.length);
  const shifts = [0, Math.floor(plane.length / 3), Math.floor(plane.length / 1.7)];
  for (let k = 0; k < plane.length; k++) {
    const u = ((k % width) / 60) % 1;
    const v = (Math.floor(k / width) / 60) % 1;
    const shares = u + v < 1 ? [1 - u - v, u, v] : [u + v - 1, 1 - v, 1 - u];
    for (let n = 0; n < 3; n++) blended[k] += shares[n] * plane[(k + shifts[n]) % plane.length];
  }
  return blended;
}

describe('structure', () => {
  it('stays: autocorrelation and radial spectrum differ by no more than two halves of the swatch do', () => {
    const swatch = clouds(384, MM, 1.2);
    const [plane] = painted(prepared(swatch, 'straight', 76.8, 76.8), 0, 0, 384, 384);
    const half = 192;
    const window = (from: Float32Array, x: number, y: number) => {
      const cut = new Float32Array(half * half);
      for (let j = 0; j < half; j++) {
        for (let i = 0; i < half; i++) cut[j * half + i] = from[(y + j) * 384 + x + i];
      }
      return cut;
    };
    const corners = [
      [0, 0],
      [192, 0],
      [0, 192],
      [192, 192],
    ];
    const own = corners.map(([x, y]) => window(swatch.planes[0], x, y));
    const grown = corners.map(([x, y]) => window(plane, x, y));
    for (const measure of [likenessOf, spectrumOf]) {
      const of = (windows: Float32Array[]) => windows.map((w) => measure(w, half));
      const [a, b] = [of(own), of(grown)];
      // The mean over four windows strays half as far as one does: the most that two of the swatch differ by.
      let apart = 0;
      for (const first of a) for (const second of a) apart = Math.max(apart, away(first, second));
      expect(away(meanOf(a), meanOf(b))).toBeLessThan(apart);
    }
  });
});

function meanOf(lists: readonly number[][]): number[] {
  return lists[0].map((_, k) => lists.reduce((sum, list) => sum + list[k], 0) / lists.length);
}

function away(first: readonly number[], second: readonly number[]): number {
  return Math.sqrt(first.reduce((sum, value, k) => sum + (value - second[k]) ** 2, 0) / first.length);
}

describe('the repeat', () => {
  const layouts = ['straight', 'drop:1/2', 'drop:1/3', 'drop:3/7', 'brick:1/2', 'brick:2/5'];
  it.each(layouts)('closes over %s, bit for bit', (layout) => {
    const swatch = spotted(200, MM);
    const handed = prepared(swatch, layout, 84, 84);
    const { ax, ay, bx, by } = handed.box.lattice;
    const at = (x: number, y: number) => painted(handed, Math.round(x / MM), Math.round(y / MM), 40, 30)[0];
    const home = at(-3, 20);
    expect(at(ax - 3, ay + 20)).toEqual(home);
    expect(at(bx - 3, by + 20)).toEqual(home);
  });

  it('has the same bytes however it is cut into bands', () => {
    const handed = prepared(spotted(200, MM), 'drop:1/2', 60, 60, { turned: true, mirrored: true });
    for (const mm of [0.2, 0.31]) {
      const [whole] = painted(handed, 5, 7, 64, 48, mm);
      const [part] = painted(handed, 5 + 17, 7 + 9, 30, 20, mm);
      for (let j = 0; j < 20; j++) {
        const from = (j + 9) * 64 + 17;
        expect(part.subarray(j * 30, (j + 1) * 30)).toEqual(whole.subarray(from, from + 30));
      }
    }
  });
});

describe('pieces', () => {
  it('are the swatch itself in their middle', () => {
    const swatch = spotted(300, MM);
    const handed = prepared(swatch, 'straight', 60, 60);
    const model = EVEN.prepare(handed);
    const [x, y] = model.pieces.numbers;
    const planes = [new Float32Array(1)];
    EVEN.paint(model, { x: 0, y: 0, width: 1, height: 1, mmPerPixelX: MM, mmPerPixelY: MM }, planes);
    const around: number[] = [];
    for (let j = -1; j <= 1; j++) {
      for (let i = -1; i <= 1; i++) {
        around.push(swatch.planes[0][(Math.floor(y / MM) + j) * 300 + Math.floor(x / MM) + i]);
      }
    }
    expect(around.some((value) => Math.abs(value - planes[0][0]) < 2e-3)).toBe(true);
  });

  it('of the same place keep a piece and more apart', () => {
    const model = EVEN.prepare(prepared(spotted(400, MM), 'drop:1/2', 160, 160));
    expect(model.comesBack).toBeGreaterThan(model.pieces.net.mmPerCellX);
  });
});

describe('a flat swatch', () => {
  it('grows flat', () => {
    const level = { width: 40, height: 40, mmPerSample: MM, planes: [new Float32Array(1600).fill(0.4)] };
    const [plane] = painted(prepared(level, 'straight', 30, 30), 0, 0, 50, 50);
    for (const value of plane) expect(value).toBeCloseTo(0.4, 4);
  });
});
