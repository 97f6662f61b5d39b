import { type Frame, frameOf, intoFrame, outOfFrame, wrapFrame } from './frame.ts';
import { hashUnit } from './hash.ts';
import { type NinePoints, ninePoints } from './nine-points.ts';
import type { FieldShape } from './periodic.ts';
import { requirePositive } from './require.ts';
import { cutIntoSteps, unstable } from './time-step.ts';

/**
 * How a crystal grows from its melt: R. Kobayashi, *Modeling and numerical simulations of dendritic crystal
 * growth*, Physica D 63, 410 (1993). His own numbers, with a mm for his unit of length: interface 0.01,
 * relaxation 0.0003, anisotropy 0.01 to 0.05, folds 4 or 6, latentHeat 0.8 to 2, spread 1, drive 0.9, steepness
 * 10, on cells of 0.03 with time steps of 0.0002.
 */
export interface Crystal {
  /** Epsilon, mm: the interface is about 4 of them wide; take cells of up to 3, or it sticks to the grid. */
  readonly interface: number;
  /** Tau, in units of time. */
  readonly relaxation: number;
  /** Delta, a share of 0..0.2: how much the interface differs with its direction. 0 makes sea weed. */
  readonly anisotropy: number;
  /** j, whole: how many arms; 6 for frost. */
  readonly folds: number;
  /** Theta0, radians: which way the first arm grows; one number, or one per cell for grains of their own. */
  readonly angle: number | Float32Array;
  /** K, a number of 0 and up: what freezing warms. Below 1 the melt freezes wholly, more makes thinner branches. */
  readonly latentHeat: number;
  /** Of the heat, mm2 per unit of time. */
  readonly spread: number;
  /** Alpha, a number below 1: freezing is driven by m = alpha / pi * atan(gamma * (1 - heat)). */
  readonly drive: number;
  /** Gamma, a number above 0: how steeply it is driven. */
  readonly steepness: number;
  /** a, a number of 0..0.05: how strongly the interface trembles, which is what side branches start from; default 0. */
  readonly trembling?: number;
  /** The seed of the trembling; draw it by `random(...).bits()`; default 0. */
  readonly seed?: number;
}

/** One number per cell. */
export interface Freezing {
  /** One number per cell: 1 in the crystal, 0 in the melt. */
  readonly solid: Float32Array;
  /** One number per cell: 0 where undercooled, 1 where ice and melt stand still. */
  readonly heat: Float32Array;
}

/** How far a growth is taken, and how it tells of itself. */
export interface GrowOptions {
  /** How long to go on, in units of time. */
  readonly duration: number;
  /** The longest step, in units of time; by default nine tenths of `crystalStep`. */
  readonly timeStep?: number;
  /** Called with 0..1, every few steps; nobody is told where absent. */
  readonly progress?: (done: number) => void;
}

const LOOK = 8;
/** Beyond this a value can only have been thrown there by an unstable step, or given. */
const ASTRAY = 10;

/**
 * The largest stable time step of explicit Euler: 2 over the fastest decay, which is spread * L for the heat, and
 * (interface^2 S L + 1) / relaxation for the crystal, with L the fastest rate of the nine-point star (16 / (3 h^2) on
 * square cells of h mm) and S = (1 + delta)^2 + (delta j)^2 + (1 + delta) delta j^2, the most that anisotropy stiffens it.
 *
 * @throws Fault (effect) where `interface`, `relaxation` or `spread` is not above 0.
 */
export function crystalStep(shape: FieldShape, crystal: Crystal): number {
  const { relaxation, spread, anisotropy: delta, folds } = crystal;
  requirePositive(crystal.interface, 'the interface of a crystal');
  requirePositive(relaxation, 'the relaxation of a crystal');
  requirePositive(spread, 'the spread of its heat');
  const { fastest } = ninePoints(shape);
  const stiffness = (1 + delta) ** 2 + (delta * folds) ** 2 + (1 + delta) * delta * folds ** 2;
  const decay = (crystal.interface ** 2 * stiffness * fastest + 1) / relaxation;
  return 2 / Math.max(spread * fastest, decay);
}

/**
 * Lets a crystal grow over the repeat, in place: ferns, frost, stars, sea weed.
 *
 * tau p_t = div(eps^2 grad p) - (eps eps' p_y)_x + (eps eps' p_x)_y + p (1 - p) (p - 1/2 + m) + trembling,
 * T_t = spread lap T + K p_t, eps = interface * (1 + delta cos(j (theta - angle))), by explicit steps on a nine-point
 * star. The sum of heat - K * solid over all cells is kept. A flat front in melt of an even m goes at sqrt(2) m interface /
 * relaxation. Some 45 ns per cell and step.
 *
 * Dendrites fork where their tips are disturbed: a sketch on other cells has the same seeds and directions, but not
 * the same side branches.
 *
 * @returns The number of steps taken.
 * @throws Fault (effect) where a time step is larger than the largest stable one, which it names, or where values go
 *   astray.
 */
export function growCrystal(
  shape: FieldShape,
  { solid, heat }: Freezing,
  crystal: Crystal,
  { duration, timeStep, progress }: GrowOptions,
): number {
  const stable = crystalStep(shape, crystal);
  const steps = cutIntoSteps('the growth of a crystal', duration, stable, timeStep);
  const frame = frameOf(shape);
  const bench: Bench = {
    shape,
    frame,
    star: ninePoints(shape),
    crystal,
    angles: typeof crystal.angle === 'number' ? undefined : crystal.angle,
    angle: typeof crystal.angle === 'number' ? crystal.angle : 0,
    squares: new Float32Array(frame.length),
    acrossX: new Float32Array(frame.length),
    acrossY: new Float32Array(frame.length),
    time: steps.length,
  };
  let [from, to] = [intoFrame(frame, shape, solid), intoFrame(frame, shape, solid)];
  let [warm, next] = [intoFrame(frame, shape, heat), intoFrame(frame, shape, heat)];
  for (let step = 0; step < steps.count; step++) {
    stiffen(bench, from);
    freeze(bench, from, warm, to, next, step);
    wrapFrame(frame, to);
    wrapFrame(frame, next);
    [from, to] = [to, from];
    [warm, next] = [next, warm];
    if (step % LOOK < LOOK - 1 && step < steps.count - 1) continue;
    requireSound(from, warm, stable, steps.length);
    progress?.((step + 1) / steps.count);
  }
  outOfFrame(frame, shape, from, solid);
  outOfFrame(frame, shape, warm, heat);
  return steps.count;
}

interface Bench {
  readonly shape: FieldShape;
  readonly frame: Frame;
  readonly star: NinePoints;
  readonly crystal: Crystal;
  readonly angles: Float32Array | undefined;
  readonly angle: number;
  /** eps^2, and eps eps' times both slopes of the crystal, in frames. */
  readonly squares: Float32Array;
  readonly acrossX: Float32Array;
  readonly acrossY: Float32Array;
  readonly time: number;
}

/** Slopes below this, per mm of an interface, have no direction. */
const FLAT = 1e-4;

/** How stiff the interface is at each cell, by the direction it faces. */
function stiffen(bench: Bench, solid: Float32Array): void {
  const { shape, frame, crystal, squares, acrossX, acrossY, angles } = bench;
  const { interface: width, anisotropy, folds } = crystal;
  const perX = 0.5 / shape.mmPerCellX;
  const perY = 0.5 / shape.mmPerCellY;
  const flat = (FLAT / width) ** 2;
  for (let row = 0, cell = 0; row < shape.height; row++) {
    const start = 1 + (row + 1) * frame.stride;
    for (let k = start; k < start + shape.width; k++, cell++) {
      const slopeX = (solid[k + 1] - solid[k - 1]) * perX;
      const slopeY = (solid[k + frame.stride] - solid[k - frame.stride]) * perY;
      if (slopeX * slopeX + slopeY * slopeY < flat) {
        squares[k] = width * width;
        acrossX[k] = 0;
        acrossY[k] = 0;
        continue;
      }
      const turn = folds * (Math.atan2(slopeY, slopeX) - (angles ? angles[cell] : bench.angle));
      const epsilon = width * (1 + anisotropy * Math.cos(turn));
      const product = -epsilon * width * anisotropy * folds * Math.sin(turn);
      squares[k] = epsilon * epsilon;
      acrossX[k] = product * slopeX;
      acrossY[k] = product * slopeY;
    }
  }
  wrapFrame(frame, squares);
  wrapFrame(frame, acrossX);
  wrapFrame(frame, acrossY);
}

/** One step of the crystal and of the heat that it sets free. */
function freeze(
  { shape, frame, star, crystal, squares, acrossX, acrossY, time }: Bench,
  solid: Float32Array,
  heat: Float32Array,
  nextSolid: Float32Array,
  nextHeat: Float32Array,
  step: number,
): void {
  const { latentHeat, spread, drive, steepness, trembling = 0, seed = 0 } = crystal;
  const { stride } = frame;
  const perX = 0.5 / shape.mmPerCellX;
  const perY = 0.5 / shape.mmPerCellY;
  const rate = time / crystal.relaxation;
  for (let row = 0, cell = 0; row < shape.height; row++) {
    const start = 1 + (row + 1) * stride;
    for (let k = start; k < start + shape.width; k++, cell++) {
      const here = solid[k];
      const slopeX = (solid[k + 1] - solid[k - 1]) * perX;
      const slopeY = (solid[k + stride] - solid[k - stride]) * perY;
      const stiffer =
        (squares[k + 1] - squares[k - 1]) * perX * slopeX +
        (squares[k + stride] - squares[k - stride]) * perY * slopeY;
      const turning =
        (acrossX[k + stride] - acrossX[k - stride]) * perY - (acrossY[k + 1] - acrossY[k - 1]) * perX;
      const edge = here * (1 - here);
      let change = squares[k] * starAt(star, solid, k, stride) + stiffer + turning;
      if (edge !== 0) {
        const m = (drive / Math.PI) * Math.atan(steepness * (1 - heat[k]));
        change += edge * (here - 0.5 + m);
        if (trembling > 0) change += trembling * edge * (hashUnit(seed, step, cell) - 0.5);
      }
      nextSolid[k] = here + rate * change;
      // What was really added, rounded as it is kept: so the sum of heat - K * solid stays.
      nextHeat[k] =
        heat[k] + time * spread * starAt(star, heat, k, stride) + latentHeat * (nextSolid[k] - here);
    }
  }
}

function starAt(
  { centre, beside, above, corner }: NinePoints,
  values: Float32Array,
  k: number,
  stride: number,
): number {
  const [up, down] = [k - stride, k + stride];
  return (
    centre * values[k] +
    beside * (values[k - 1] + values[k + 1]) +
    above * (values[up] + values[down]) +
    corner * (values[up - 1] + values[up + 1] + values[down - 1] + values[down + 1])
  );
}

function requireSound(solid: Float32Array, heat: Float32Array, stable: number, step: number): void {
  for (let k = 0; k < solid.length; k++) {
    if (Math.abs(solid[k]) < ASTRAY && Math.abs(heat[k]) < ASTRAY) continue;
    throw unstable(
      'the growth of a crystal, begun with solid and heat within 0..1',
      stable,
      `${step}, and solid ${solid[k]}, heat ${heat[k]}`,
    );
  }
}
