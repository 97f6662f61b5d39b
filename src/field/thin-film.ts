import { Fault } from '../fault.ts';
import { requirePositive } from './require.ts';

/**
 * A thin liquid film that is the same all round an axis, as finite volumes: ring i lies between the
 * radii i * ringWidth and (i + 1) * ringWidth. Lengths in any unit, heights in units of the film at rest.
 */
export interface RadialFilm {
  /** Breadth of a ring, in any unit of length. */
  readonly ringWidth: number;
  /** Depth of the film in each ring, in units of the film at rest. */
  readonly height: Float64Array;
}

/** A film with an insoluble surfactant on it. */
export interface SurfactantFilm extends RadialFilm {
  /** Concentration in each ring, in units that make surface tension fall by 1 per 1. */
  readonly surfactant: Float64Array;
}

/** The sum of a height over all rings, the angle left out: a height of 1 within a radius of 1 comes to 1/2. */
export function sumOverRings(ringWidth: number, values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += (i + 0.5) * values[i];
  return sum * ringWidth * ringWidth;
}

/**
 * The height of a film that a point of surfactant has driven outward, at `part` of the way from the
 * centre to the front: 2 part^2, and 1 beyond it. The similarity solution without diffusion, gravity
 * or capillarity (Jensen & Grotberg, *J. Fluid Mech.* 240, 1992): the front is a jump from 2 to 1.
 */
export function similarityHeight(part: number): number {
  return part < 1 ? 2 * part * part : 1;
}

/**
 * Where the front of that solution stands: (16 charge time / pi)^(1/4). With r = R xi and
 * G = (B / R^2) g(xi), R^3 R' = kB, the equations of `spreadSurfactant` give h g' = -k xi, then
 * h = 2 xi^2 and g = -(k/2) ln xi; the charge, 2 pi times the integral of G r, is pi B k / 4.
 *
 * The fourth root is the model's: beneath a monolayer Swanson et al. (arXiv 1306.4881) measured
 * exponents below 1/10.
 *
 * @param charge All the surfactant: 2 pi times `sumOverRings`.
 */
export function similarityRadius(charge: number, time: number): number {
  return ((16 * charge * time) / Math.PI) ** 0.25;
}

/** How surfactant spreads. */
export interface SpreadOptions {
  /** How long to go on; a time of 1 is viscosity * length^2 / (fall of surface tension * depth). */
  readonly duration: number;
  /** Of the surfactant along the surface, in the same units; above 0, or the front has no width. */
  readonly diffusion: number;
}

/** The part of a ring that the film may cross in a step; upwind needs less than 1. */
const COURANT = 0.4;

/**
 * Lets surfactant spread and drive the film, in place (Jensen & Grotberg 1992), without gravity and
 * capillarity.
 *
 *     h_t + (1/r)(r q)_r = 0,          q = -(h^2 / 2) G_r
 *     G_t = (1/r)(r (h G + D) G_r)_r
 *
 * Conservative in both: what leaves a ring enters the next, and nothing passes the axis or the outer
 * edge. The surfactant is taken implicitly, the film upwind, so both stay at 0 or above.
 *
 * @returns The number of steps taken.
 */
export function spreadSurfactant(film: SurfactantFilm, { duration, diffusion }: SpreadOptions): number {
  requirePositive(duration, 'the duration of a spreading');
  requirePositive(diffusion, 'the diffusion of a surfactant');
  const { height, surfactant, ringWidth } = film;
  requireRings(film, surfactant.length);
  const count = height.length;
  const line = openLine(count);
  const flux = new Float64Array(count + 1);
  let steps = 0;
  for (let time = 0; time < duration; steps++) {
    const step = Math.min(duration - time, stableStep(film));
    // Faces are named by the ring inside them: face i lies between ring i and ring i + 1.
    for (let i = 0; i + 1 < count; i++) {
      const upwind = surfactant[i] >= surfactant[i + 1] ? height[i] : height[i + 1];
      const carried = 0.5 * (surfactant[i] + surfactant[i + 1]);
      line.exchange[i] = ((i + 1) * step * (upwind * carried + diffusion)) / (ringWidth * ringWidth);
    }
    diffuseRings(line, surfactant);
    for (let i = 0; i + 1 < count; i++) {
      const fall = (surfactant[i] - surfactant[i + 1]) / ringWidth;
      const upwind = fall >= 0 ? height[i] : height[i + 1];
      flux[i + 1] = (i + 1) * 0.5 * upwind * upwind * fall;
    }
    for (let i = 0; i < count; i++) {
      height[i] -= ((flux[i + 1] - flux[i]) * step) / (ringWidth * (i + 0.5));
    }
    time += step;
  }
  return steps;
}

/** Disturbances of the film run at h |G_r|, the slope of the flux. */
function stableStep({ height, surfactant, ringWidth }: SurfactantFilm): number {
  let fastest = 1e-12;
  for (let i = 0; i + 1 < height.length; i++) {
    const fall = Math.abs(surfactant[i] - surfactant[i + 1]) / ringWidth;
    fastest = Math.max(fastest, fall * Math.max(height[i], height[i + 1]));
  }
  return (COURANT * ringWidth) / fastest;
}

/** How a film levels. */
export interface LevelOptions {
  /** How long the film levels: a time of 1 spreads a film of depth 1 over about a length of 1. */
  readonly duration: number;
  /** How many steps the duration is taken in, a whole number: more are truer. */
  readonly steps: number;
  /** The power of the depth that the film's mobility goes with; 3, a viscous film, where absent. */
  readonly power?: number;
  /** Radius of a line where the film is held, in the unit of `ringWidth`; nowhere where absent. */
  readonly heldAt?: number;
  /** How much of the flow passes that line, 0..1; 0 where absent. */
  readonly passing?: number;
}

/**
 * Lets a film level under its own weight, in place: h_t = (1/r)(r h^n h_r)_r, the gravity current of a
 * viscous film (Huppert, *J. Fluid Mech.* 121, 1982, n = 3). What stands high slumps at once, what is
 * thin hardly moves: a bare place stays bare. Conservative; implicit with the mobility of the step
 * before, so nothing goes below 0 or beyond the highest and lowest there was.
 */
export function levelFilm(film: RadialFilm, options: LevelOptions): void {
  const { duration, steps, power = 3, heldAt = -1, passing = 0 } = options;
  requirePositive(duration, 'the duration of a levelling');
  requirePositive(steps, 'the steps of a levelling');
  const { height, ringWidth } = film;
  const count = height.length;
  const line = openLine(count);
  const held = Math.round(heldAt / ringWidth) - 1;
  const scale = duration / steps / (ringWidth * ringWidth);
  for (let step = 0; step < steps; step++) {
    let inner = mobilityOf(height[0], power);
    for (let i = 0; i + 1 < count; i++) {
      const outer = mobilityOf(height[i + 1], power);
      line.exchange[i] = (i + 1) * scale * 0.5 * (inner + outer) * (i === held ? passing : 1);
      inner = outer;
    }
    diffuseRings(line, height);
  }
}

/** A cube is ten times faster multiplied out. */
function mobilityOf(height: number, power: number): number {
  return power === 3 ? height * height * height : height ** power;
}

interface Line {
  /** What passes each face per difference of 1, as a share of ring area (ringWidth^2). */
  readonly exchange: Float64Array;
  readonly ratio: Float64Array;
}

function openLine(count: number): Line {
  return { exchange: new Float64Array(count), ratio: new Float64Array(count) };
}

/** One implicit step of diffusion from ring to ring, by Thomas's elimination; keeps the sum over rings. */
function diffuseRings({ exchange, ratio }: Line, values: Float64Array): void {
  const last = values.length - 1;
  let inner = 0;
  for (let i = 0; i <= last; i++) {
    const outer = i < last ? exchange[i] : 0;
    const area = i + 0.5;
    const below = i > 0 ? ratio[i - 1] : 0;
    const pivot = area + outer + inner * (1 - below);
    values[i] = (area * values[i] + (i > 0 ? inner * values[i - 1] : 0)) / pivot;
    ratio[i] = outer / pivot;
    inner = outer;
  }
  for (let i = last - 1; i >= 0; i--) values[i] += ratio[i] * values[i + 1];
}

function requireRings({ height }: RadialFilm, count: number): void {
  if (height.length === count && count > 1) return;
  throw new Fault({
    kind: 'effect',
    expected: 'as many rings of surfactant as of film, two at least',
    subject: 'a radial film',
    received: `${height.length} and ${count}`,
    remedy: 'Make both arrays of one length.',
  });
}
