import { createNoise4D } from 'simplex-noise';
import type { Lattice } from '../repeat/lattice.ts';
import { type RandomStream, randomStream } from './random.ts';
import { requirePositive } from './require.ts';

/**
 * Simplex noise in four dimensions on a torus of two circles, which closes because the circles do.
 * Another noise for those who want it; `latticeNoise` is the one to use where nothing speaks against it.
 *
 * How the two differ, measured at the same `size`:
 *
 * | | lattice noise | simplex on a torus |
 * |---|---|---|
 * | standard deviation | 0.2157 (exact) | 0.298 |
 * | range | +-0.7071 (exact) | +-0.99 |
 * | at 0.8 to 1 cell from a bump | a dent (correlation -0.15) | hardly any (-0.04) |
 * | zeros | at the corners of its cells | on no grid of the plane |
 * | directions | none under any layout | none when straight; under a drop or brick offset drawn out, up to 1.73 times |
 * | stretched along a direction | yes | no |
 * | ns per point, by the row / alone | 2 / 20 | 50 / 90 |
 *
 * On a repeat of less than about four sizes the circles are so tight that their far sides feel each
 * other: expect fewer, broader features.
 *
 * Plain data: `openTorusNoise` makes it a function.
 */
export interface TorusNoise {
  /** 32 bits that the gradients come from. */
  readonly seed: number;
  /** The two waves of the repeat, and the circles that their phases run around. */
  readonly circles: readonly [Circle, Circle];
}

/** A wave that closes over the repeat, and the circle its phase runs around. */
interface Circle {
  /** Turns per mm, across and down the page. */
  readonly x: number;
  readonly y: number;
  /** In units of the simplex noise. */
  readonly radius: number;
  readonly centre: readonly [number, number];
}

/** Standard deviation, measured over the four-dimensional space. */
export const TORUS_NOISE_DEVIATION = 0.2977;

/** Measured: where simplex noise is 0.288 units from a point its correlation is one half; lattice noise 0.387 cells. */
const CELLS_PER_UNIT = 0.387 / 0.288;

/**
 * A torus noise whose features are about as large as those of lattice noise with cells of `size`.
 *
 * Each circle belongs to a wave that closes over the lattice. The two waves nearest to a right angle
 * are taken and the radii chosen so that distances on the torus are as nearly those on the plane as
 * they can be (least squares): exact where the waves are at right angles, as in a straight layout.
 *
 * @param lattice The repeat's vectors in mm.
 * @param size    mm
 */
export function torusNoise(lattice: Lattice, size: number, random: RandomStream): TorusNoise {
  requirePositive(size, 'the size of torus noise');
  const [a, b] = squarestWaves(lattice);
  const aa = a.x * a.x + a.y * a.y;
  const bb = b.x * b.x + b.y * b.y;
  const ab = a.x * b.x + a.y * b.y;
  const unit = size * CELLS_PER_UNIT;
  // (2*pi*radius*unit)^2 = l solves min | l_a a a' + l_b b b' - 1 |, with ' for the transpose.
  const radius = (other: number) => Math.sqrt(other / (aa * bb + ab * ab)) / (2 * Math.PI * unit);
  const centre = () => [random.between(0, 256), random.between(0, 256)] as const;
  return {
    seed: random.bits(),
    circles: [
      { ...a, radius: radius(bb), centre: centre() },
      { ...b, radius: radius(aa), centre: centre() },
    ],
  };
}

/** A torus noise ready for use; make it once per band, not once per point. */
export interface OpenTorusNoise {
  /** The noise at a point anywhere on the plane, mm. */
  at(x: number, y: number): number;
  /** Adds `gain` times the noise along a row; see `addNoiseRow` for the arguments. */
  addRow(
    x0: number,
    step: number,
    y: number,
    gain: number,
    row: Float32Array | Float64Array,
    count: number,
    offset?: number,
  ): void;
}

/** Builds the tables that simplex noise looks up (some microseconds). */
export function openTorusNoise({ seed, circles: [a, b] }: TorusNoise): OpenTorusNoise {
  const noise = createNoise4D(randomStream(String(seed), 'torus').next);
  return {
    at(x, y) {
      const p = phase(a, x, y);
      const q = phase(b, x, y);
      return noise(
        a.centre[0] + a.radius * Math.cos(p),
        a.centre[1] + a.radius * Math.sin(p),
        b.centre[0] + b.radius * Math.cos(q),
        b.centre[1] + b.radius * Math.sin(q),
      );
    },
    addRow(x0, step, y, gain, row, count, offset = 0) {
      const arms = [a, b].map((circle) => ({
        x: circle.radius * Math.cos(phase(circle, x0, y)),
        y: circle.radius * Math.sin(phase(circle, x0, y)),
        c: Math.cos(phase(circle, step, 0)),
        s: Math.sin(phase(circle, step, 0)),
      }));
      const [c, d] = arms;
      for (let k = offset; k < offset + count; k++) {
        row[k] += gain * noise(a.centre[0] + c.x, a.centre[1] + c.y, b.centre[0] + d.x, b.centre[1] + d.y);
        turn(c);
        turn(d);
      }
    },
  };
}

function phase({ x: turnsX, y: turnsY }: Circle, x: number, y: number): number {
  return 2 * Math.PI * (turnsX * x + turnsY * y);
}

/** One step on: cheaper than a cosine and a sine, and right to 1e-12 after ten thousand. */
function turn(arm: { x: number; y: number; readonly c: number; readonly s: number }): void {
  const x = arm.x * arm.c - arm.y * arm.s;
  arm.y = arm.x * arm.s + arm.y * arm.c;
  arm.x = x;
}

interface Wave {
  readonly x: number;
  readonly y: number;
}

/**
 * Of all pairs of waves that together tell every point of the repeat from every other, the one nearest
 * to a right angle: among the three shortest, once the basis is reduced.
 */
function squarestWaves({ ax, ay, bx, by }: Lattice): [Wave, Wave] {
  const area = ax * by - ay * bx;
  let a: Wave = { x: by / area, y: -bx / area };
  let b: Wave = { x: -ay / area, y: ax / area };
  for (;;) {
    if (dot(a, a) > dot(b, b)) [a, b] = [b, a];
    const times = Math.round(dot(a, b) / dot(a, a));
    if (times === 0) break;
    b = { x: b.x - times * a.x, y: b.y - times * a.y };
  }
  const sign = dot(a, b) > 0 ? -1 : 1;
  const third: Wave = { x: a.x + sign * b.x, y: a.y + sign * b.y };
  const pairs: [Wave, Wave][] = [
    [a, b],
    [a, third],
    [b, third],
  ];
  const lean = ([p, q]: [Wave, Wave]) => dot(p, q) ** 2 / (dot(p, p) * dot(q, q));
  return pairs.reduce((best, pair) => (lean(pair) < lean(best) - 1e-12 ? pair : best));
}

function dot(a: Wave, b: Wave): number {
  return a.x * b.x + a.y * b.y;
}
