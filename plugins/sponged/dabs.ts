import { type Box, Fault, fractalAt, fractalNoise, poissonPoints, type RandomStream } from 'tenter';
import type { SpongeValues } from './parameters.ts';

/** One touch of the sponge. */
export interface Dab {
  /** mm, the middle. */
  readonly x: number;
  readonly y: number;
  /** How the sponge was turned. */
  readonly cos: number;
  readonly sin: number;
  /** -1 where it was turned over. */
  readonly side: 1 | -1;
  /** Half of it, mm, along its own axes. */
  readonly halfU: number;
  readonly halfV: number;
  /** Where on its face it touched, in cells of the finest face and of the lobes, 0..1. */
  readonly cutU: number;
  readonly cutV: number;
  /** How hard it pressed, in standard deviations of the face, and how much harder at one side, per half. */
  readonly press: number;
  readonly tiltU: number;
  readonly tiltV: number;
  /** How full it was, 0..1. */
  readonly load: number;
  readonly isSecond: boolean;
}

/** More dabs than this nobody makes, and fewer on the same ground would be another texture. */
const MOST_DABS = 40_000;
/** Dabs from one dip of the sponge to the next. */
const DIP = 7;

/** The size of the sponge, mm: in a repeat smaller than it, all would be one flat patch of its copies. */
export function spongeFor(box: Box, wanted: number): number {
  return Math.min(wanted, 1.05 * Math.sqrt(box.width * box.height));
}

/** Dabs of one repeat in the order in which they are made, pass by pass. */
export function dabAll(box: Box, values: SpongeValues, random: (name: string) => RandomStream): Dab[] {
  const { passes } = values;
  const sponge = spongeFor(box, values.sponge);
  const places = random('places');
  const forms = random('forms');
  const area = box.width * box.height;
  const one = (Math.PI / 4) * sponge * sponge * 0.8;
  if (area / one > MOST_DABS) throw tooManyDabs(box, values.sponge);
  const drift = fractalNoise(
    box.lattice,
    { along: 2.6 * sponge, across: 2.6 * sponge },
    { octaves: 2, gain: 0.6 },
    random('drifts'),
  );
  const dabs: Dab[] = [];
  const rounds = Math.max(1, Math.round(passes));
  for (let round = 0; round < rounds; round++) {
    const share = passes / rounds;
    // A Poisson disk sampling holds 0.615 points per square of its distance (see `poissonPoints`).
    const points = poissonPoints(box, Math.sqrt((0.615 * one) / share), places);
    for (let k = 0; k < points.x.length; k++) {
      const [x, y] = [points.x[k], points.y[k]];
      const gathered = values.drifts * fractalAt(drift, x, y);
      dabs.push(formDab(x, y, k % DIP, gathered, { ...values, sponge }, forms));
    }
  }
  return dabs;
}

function tooManyDabs({ width, height }: Box, sponge: number): Fault {
  const least = Math.ceil(Math.sqrt((width * height) / (0.8 * (Math.PI / 4) * MOST_DABS)));
  return new Fault({
    kind: 'usage',
    expected: `a sponge of at least ${least} mm for a repeat of ${Math.round(width)} x ${Math.round(height)} mm`,
    subject: 'sponge',
    received: `${sponge} mm`,
    remedy: 'Take a larger sponge or a smaller repeat.',
  });
}

function formDab(
  x: number,
  y: number,
  sinceDip: number,
  gathered: number,
  values: SpongeValues,
  random: RandomStream,
): Dab {
  const { sponge, pressure, variation } = values;
  const angle = random.between(0, 2 * Math.PI);
  const size = (sponge / 2) * Math.exp(0.16 * random.normal());
  const squash = random.between(0.68, 1);
  const spent = sinceDip / (DIP - 1);
  const press =
    -1.2 + 2.4 * pressure + 0.7 * gathered + variation * (0.34 * random.normal() - 0.5 * (spent - 0.5));
  const tilt = 0.4 * variation * random.next();
  const lean = random.between(0, 2 * Math.PI);
  const load = 1 - 0.42 * Math.min(1.4, variation) * spent - 0.16 * Math.min(1.4, variation) * random.next();
  return {
    x,
    y,
    cos: Math.cos(angle),
    sin: Math.sin(angle),
    side: random.next() < 0.5 ? 1 : -1,
    halfU: size / Math.sqrt(squash),
    halfV: size * Math.sqrt(squash),
    cutU: random.next(),
    cutV: random.next(),
    press: Math.max(-2.5, Math.min(2.5, press)),
    tiltU: tilt * Math.cos(lean),
    tiltV: tilt * Math.sin(lean),
    load: Math.max(0.1, load),
    isSecond: random.next() * 100 < values.second,
  };
}
