import type { RandomStream } from 'tenter';

/**
 * The tone of the wood along the radius, as a running integral, so that the mean over any stretch
 * of radius is one subtraction: an exact box filter at any density. Plain data.
 */
export interface RingTable {
  /** mm of radius at the first entry. */
  readonly from: number;
  /** Entries per mm. */
  readonly perMm: number;
  /** Integral of the tone from `from`, mm; entry k at radius from + k / perMm. */
  readonly integral: Float64Array;
  /** Where in its ring each step lies, 0 at the pith side to 1 at the bark side. */
  readonly phase: Float32Array;
}

export interface RingHabit {
  profile(t: number, latewood: number): number;
  readonly latewood: number;
  readonly latewoodSpread: number;
  readonly ringSpread: number;
  readonly drift: number;
  /** Tone by which wet and dry spells within a year show. */
  readonly spells: number;
}

/** Steps of the table per mm: half a pixel at 300 dpi. */
const STEPS_PER_MM = 30;
/** Spells within a year, per mm of radius. */
const SPELLS_PER_MM = 4.5;
/** Samples averaged into a step, so that the sharp edge of a ring lands where it should. */
const SAMPLES = 4;

/** The boundaries of `count` rings, mm, from 0 to count * mean exactly. Neighbouring widths resemble each other. */
export function ringBounds(count: number, mean: number, spread: number, random: RandomStream): Float64Array {
  const bounds = new Float64Array(count + 1);
  let state = random.normal();
  for (let k = 0; k < count; k++) {
    // Good and bad years follow the weather and the crown: a first-order autoregression.
    state = 0.55 * state + Math.sqrt(1 - 0.55 * 0.55) * random.normal();
    bounds[k + 1] = bounds[k] + Math.exp(spread * Math.max(-2.2, Math.min(2, state)));
  }
  const scale = (count * mean) / bounds[count];
  for (let k = 1; k <= count; k++) bounds[k] *= scale;
  bounds[count] = count * mean;
  return bounds;
}

/**
 * A ring table from radius `from` to `to`.
 *
 * @param period Rings after which the sequence repeats; radii 0 and period * mean are the same place.
 * @param mean   mm, the mean ring width.
 */
export function ringTable(
  habit: RingHabit,
  period: number,
  mean: number,
  from: number,
  to: number,
  random: RandomStream,
): RingTable {
  const bounds = ringBounds(period, mean, habit.ringSpread, random);
  const rings = ringCharacters(habit, period, random);
  const steps = Math.ceil((to - from) * STEPS_PER_MM) + 2;
  const integral = new Float64Array(steps + 1);
  const phase = new Float32Array(steps);
  const length = period * mean;
  const spells = closedWalk(Math.round(length * SPELLS_PER_MM), habit.spells, random);
  const spellScale = spells.length / length;
  let ring = 0;
  for (let k = 0; k < steps; k++) {
    let sum = 0;
    for (let n = 0; n < SAMPLES; n++) {
      const at = from + (k + (n + 0.5) / SAMPLES) / STEPS_PER_MM;
      const radius = at - Math.floor(at / length) * length;
      if (radius < bounds[ring]) ring = 0;
      while (ring < period - 1 && radius >= bounds[ring + 1]) ring++;
      const t = (radius - bounds[ring]) / (bounds[ring + 1] - bounds[ring]);
      const { strength, latewood, level, slope } = rings[ring];
      const spell = radius * spellScale;
      const s = Math.min(spells.length - 1, Math.floor(spell));
      const next = spells[s + 1 < spells.length ? s + 1 : 0];
      sum += habit.profile(t, latewood) * strength + level + slope * t;
      sum += spells[s] + (spell - s) * (next - spells[s]);
      phase[k] = t;
    }
    integral[k + 1] = integral[k] + sum / SAMPLES / STEPS_PER_MM;
  }
  return { from, perMm: STEPS_PER_MM, integral, phase };
}

/** The mean tone over radii within `width` / 2 of `radius`, mm. */
export function toneOver(table: RingTable, radius: number, width: number): number {
  const at = (value: number) => {
    const x = (value - table.from) * table.perMm;
    const k = Math.max(0, Math.min(table.integral.length - 2, Math.floor(x)));
    return table.integral[k] + (x - k) * (table.integral[k + 1] - table.integral[k]);
  };
  return (at(radius + width / 2) - at(radius - width / 2)) / width;
}

/** A closed sequence of mean 0 and deviation `size` whose neighbours resemble each other a little. */
function closedWalk(count: number, size: number, random: RandomStream): Float64Array {
  const walk = new Float64Array(Math.max(1, count));
  let state = 0;
  for (let k = 0; k < walk.length; k++) {
    state = 0.6 * state + 0.8 * (2 * random.next() - 1) * Math.sqrt(3);
    walk[k] = size * state;
  }
  return walk;
}

/** How strong each ring is, its share of latewood, and its place in the slow drift of colour. */
function ringCharacters(habit: RingHabit, count: number, random: RandomStream) {
  // In a short sequence the drift comes round so soon that it would show as stripes.
  const level = slowDrift(count, habit.drift * Math.min(1, Math.max(0.45, count / 30)), random);
  return Array.from({ length: count }, (_, k) => {
    const strong = random.next();
    const latewood = habit.latewood * (1 + habit.latewoodSpread * (2 * random.next() - 1));
    return {
      strength: 0.62 + 0.38 * strong,
      latewood: Math.min(0.85, latewood),
      level: level[k],
      slope: level[(k + 1) % count] - level[k],
    };
  });
}

/** A closed sequence of mean 0 that drifts over three to a dozen rings. */
function slowDrift(count: number, size: number, random: RandomStream): Float64Array {
  const drift = new Float64Array(count);
  const parts = [];
  for (const rings of [4, 7, 13]) {
    const harmonic = Math.max(1, Math.round(count / rings));
    parts.push({ harmonic, amplitude: 0.8 * size * random.between(0.6, 1), turn: random.next() });
  }
  for (let k = 0; k < count; k++) {
    for (const { harmonic, amplitude, turn } of parts) {
      drift[k] += amplitude * Math.cos(2 * Math.PI * ((harmonic * k) / count + turn));
    }
  }
  return drift;
}
