import { describe, expect, it } from 'vitest';
import { Fault } from '../fault.ts';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { forwardTransform, frequencyOf } from './fourier.ts';
import { addFractalRow, fractalNoise } from './fractal.ts';
import { type GrayScott, grayScottStep, PEARSON, reactGrayScott } from './gray-scott.ts';
import { bakeField, cellIndex, type FieldShape, fieldShape } from './periodic.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/2'];
const boxFor = (layout: string, width = 20, height = 20) =>
  boxOf({ layout: parseLayout(layout), width, height });

/** Lines about a mm apart. */
const ROOT = 1 / 29;
const MM: Pick<GrayScott, 'diffusionU' | 'diffusionV'> = {
  diffusionU: ROOT ** 2,
  diffusionV: ROOT ** 2 / 2,
};

function flat({ width, height }: FieldShape, u: number, v: number) {
  const filled = (value: number) => new Float32Array(width * height).fill(value);
  return { u: filled(u), v: filled(v) };
}

/** A reaction begun from noise, about as many dark as light places. */
function reacted(layout: string, pair: { feed: number; kill: number }, duration: number, mmPerCell = 1 / 7) {
  const box = boxFor(layout);
  const shape = fieldShape(box, mmPerCell);
  const noise = fractalNoise(
    box.lattice,
    { along: 1, across: 1 },
    { octaves: 2, gain: 0.5 },
    randomStream('gray', 'scott'),
  );
  const { values } = bakeField(box, mmPerCell, (x0, step, y, row, count, offset) =>
    addFractalRow(noise, x0, step, y, 1, row, count, offset),
  );
  const begun = values.map((z) => 1 / (1 + Math.exp(-3 * z)));
  const reactants = { u: begun.map((z) => 1 - 0.6 * z), v: begun.map((z) => 0.32 * z) };
  reactGrayScott(shape, reactants, { ...pair, ...MM }, { duration });
  return { shape, ...reactants };
}

/** Connected patches above half of the maximum, over the seams. */
function patchesOf(shape: FieldShape, v: Float32Array): number {
  const level = 0.5 * v.reduce((most, value) => Math.max(most, value), 0);
  const isSeen = new Uint8Array(v.length);
  let patches = 0;
  for (let first = 0; first < v.length; first++) {
    if (isSeen[first] || v[first] < level) continue;
    patches++;
    const stack = [first];
    isSeen[first] = 1;
    for (let cell = stack.pop(); cell !== undefined; cell = stack.pop()) {
      const [i, j] = [cell % shape.width, Math.floor(cell / shape.width)];
      for (const [di, dj] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ]) {
        const next = cellIndex(shape, i + di, j + dj);
        if (isSeen[next] || v[next] < level) continue;
        isSeen[next] = 1;
        stack.push(next);
      }
    }
  }
  return patches;
}

/** mm from line to line: one over the mean frequency of the power near the strongest ring of 0.1 per mm. */
function apart(shape: FieldShape, v: Float32Array): number {
  const { waves } = forwardTransform({ ...shape, values: v });
  const rings = new Float64Array(100);
  for (let q = 0; q < shape.height; q++) {
    for (let p = 0; p < shape.width; p++) {
      const { x, y } = frequencyOf(shape, p, q);
      const at = 2 * (p + q * shape.width);
      const ring = Math.round(Math.hypot(x, y) / 0.1);
      if (ring > 0) rings[ring] += waves[at] ** 2 + waves[at + 1] ** 2;
    }
  }
  const peak = rings.indexOf(Math.max(...rings));
  const near = [-2, -1, 0, 1, 2].map((n) => peak + n);
  const power = near.reduce((sum, ring) => sum + rings[ring], 0);
  return power / near.reduce((sum, ring) => sum + 0.1 * ring * rings[ring], 0);
}

describe('a reaction of Gray and Scott', () => {
  const shape = fieldShape(boxFor('straight'), 0.25);

  // F (1 - u) = u v^2 and u v = F + k: u = (1 +- sqrt(1 - 4 (F + k)^2 / F)) / 2, v = (F + k) / u.
  it.each([1, -1])('stands still in the even states of the equations (root %d)', (sign) => {
    const [feed, kill] = [0.05, 0.055];
    const u = (1 + sign * Math.sqrt(1 - (4 * (feed + kill) ** 2) / feed)) / 2;
    const state = flat(shape, u, (feed + kill) / u);
    reactGrayScott(shape, state, { feed, kill, ...MM }, { duration: 20 });
    expect(state.u[17]).toBeCloseTo(u, 5);
    expect(state.v[17]).toBeCloseTo((feed + kill) / u, 5);
  });

  it('has the red state for an end where too little is fed', () => {
    const { u, v } = reacted('straight', { feed: 0.05, kill: 0.075 }, 400);
    expect(Math.max(...v)).toBeLessThan(1e-3);
    expect(Math.min(...u)).toBeGreaterThan(0.99);
  });

  it('lets a wave in u decay as its closed form does: by diffusion and feed', () => {
    const state = flat(shape, 1, 0);
    const [p, q] = [3, 2];
    for (let k = 0; k < state.u.length; k++) {
      const [i, j] = [k % shape.width, Math.floor(k / shape.width)];
      state.u[k] = 1 + 0.1 * Math.cos(2 * Math.PI * ((p * i) / shape.width + (q * j) / shape.height));
    }
    const spread = 0.04;
    reactGrayScott(
      shape,
      state,
      { feed: 0.03, kill: 0.06, diffusionU: spread, diffusionV: spread },
      { duration: 30, timeStep: 0.1 },
    );
    const square = (2 * Math.PI) ** 2 * ((p / 20) ** 2 + (q / 20) ** 2);
    const expected = 0.1 * Math.exp(-30 * (spread * square + 0.03));
    expect(Math.abs((state.u[0] - 1) / expected - 1)).toBeLessThan(0.02);
  });

  it('lets little of v die out at F + k', () => {
    const state = flat(shape, 1, 1e-4);
    reactGrayScott(shape, state, { feed: 0.03, kill: 0.06, ...MM }, { duration: 20, timeStep: 0.1 });
    expect(state.v[0] / 1e-4).toBeCloseTo(Math.exp(-20 * 0.09), 2);
  });

  it.each([
    ['kappa', 31],
    ['mu', 36],
  ] as const)('makes the figure of %s 26 to %d roots of Du from line to line', (name, most) => {
    const { shape, v } = reacted('straight', PEARSON[name], 1200);
    expect(apart(shape, v) / ROOT).toBeGreaterThan(26);
    expect(apart(shape, v) / ROOT).toBeLessThan(most);
  });

  it("tells Pearson's classes apart: lines that wind, worms among spots, and spots that divide", () => {
    const patches = (pair: { feed: number; kill: number }, duration: number) => {
      const { shape, v } = reacted('straight', pair, duration);
      return patchesOf(shape, v);
    };
    expect(patches(PEARSON.kappa, 1200)).toBeLessThan(110);
    expect(patches(PEARSON.mu, 1200)).toBeGreaterThan(150);
    expect(patches(PEARSON.iota, 1200)).toBeLessThan(12);
    const divided = patches(PEARSON.lambda, 4000) / patches(PEARSON.lambda, 800);
    expect(divided).toBeGreaterThan(1.8);
  });

  it.each(LAYOUTS)('moves with its domain over %s', (layout) => {
    const { shape, u, v } = reacted(layout, PEARSON.kappa, 10);
    const moved = (values: Float32Array) => {
      const to = values.slice();
      for (let k = 0; k < values.length; k++)
        to[cellIndex(shape, (k % shape.width) + 23, Math.floor(k / shape.width) + 57)] = values[k];
      return to;
    };
    const there = { u: moved(u), v: moved(v) };
    const here = { u, v };
    for (const state of [here, there]) {
      reactGrayScott(shape, state, { ...PEARSON.kappa, ...MM }, { duration: 60 });
    }
    expect(there).toEqual({ u: moved(here.u), v: moved(here.v) });
  });

  it('has the same figure on coarser cells, where it starts from the same noise', () => {
    const fine = reacted('drop:1/2', PEARSON.kappa, 300);
    const coarse = reacted('drop:1/2', PEARSON.kappa, 300, 1 / 5.5);
    let [ab, aa, bb] = [0, 0, 0];
    const means = [fine, coarse].map(({ v }) => v.reduce((sum, value) => sum + value, 0) / v.length);
    for (let k = 0; k < fine.v.length; k++) {
      const [x, y] = [(k % fine.shape.width) + 0.5, Math.floor(k / fine.shape.width) + 0.5];
      const i = Math.floor((x * fine.shape.mmPerCellX) / coarse.shape.mmPerCellX);
      const j = Math.floor((y * fine.shape.mmPerCellY) / coarse.shape.mmPerCellY);
      const [a, b] = [fine.v[k] - means[0], coarse.v[cellIndex(coarse.shape, i, j)] - means[1]];
      ab += a * b;
      aa += a * a;
      bb += b * b;
    }
    expect(ab / Math.sqrt(aa * bb)).toBeGreaterThan(0.6);
  });
});

describe('its time step', () => {
  const shape = fieldShape(boxFor('straight', 2.5, 2.5), 2.5 / 256);
  const published = { ...PEARSON.kappa, diffusionU: 2e-5, diffusionV: 1e-5 };

  it("takes nine tenths of Pearson's on his own grid, and no more", () => {
    // 16 / (3 h^2) * 2e-5 = 1.118, and F + 1/2: 2 / 1.668.
    expect(grayScottStep(shape, published)).toBeCloseTo(1.199, 2);
    expect(reactGrayScott(shape, flat(shape, 1, 0), published, { duration: 2, timeStep: 1 })).toBe(2);
  });

  it('is refused by name where it is too long', () => {
    const refused = () => reactGrayScott(shape, flat(shape, 1, 0), published, { duration: 2, timeStep: 1.3 });
    expect(refused).toThrow(Fault);
    expect(refused).toThrow('at most 1.19');
    expect(refused).toThrow('1.3');
  });

  it('is just stable where diffusion is all: a wave of the grid neither grows nor jumps', () => {
    const strong = { feed: 0.03, kill: 0.06, diffusionU: 1, diffusionV: 0.5 };
    const cells = fieldShape(boxFor('straight'), 0.5);
    const rough = () => {
      const state = flat(cells, 1, 0);
      for (let k = 0; k < state.u.length; k++)
        state.u[k] += 0.1 * (((k % cells.width) + Math.floor(k / cells.width)) % 2);
      return state;
    };
    const stable = grayScottStep(cells, strong);
    const state = rough();
    reactGrayScott(cells, state, strong, { duration: 60 * stable, timeStep: stable });
    expect(Math.max(...state.u.map((value) => Math.abs(value - 1)))).toBeLessThan(0.1);
  });

  it('is called to account where values go astray', () => {
    const state = flat(shape, 1, 0);
    state.v[9] = Number.NaN;
    expect(() => reactGrayScott(shape, state, published, { duration: 2 })).toThrow('within 0..1');
  });

  it('calls progress on its way, up to the end', () => {
    const called: number[] = [];
    const cells = fieldShape(boxFor('straight'), 0.5);
    reactGrayScott(
      cells,
      flat(cells, 1, 0),
      { ...PEARSON.mu, ...MM },
      { duration: 100, timeStep: 1, progress: (done) => called.push(done) },
    );
    expect(called.length).toBeGreaterThan(5);
    expect(called.at(-1)).toBe(1);
  });
});
