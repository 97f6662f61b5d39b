import { type Box, fractalAt, fractalNoise, type RandomStream, smoothstep } from 'tenter';
import type { SaltValues } from './parameters.ts';
import { type Wash, wetnessAt } from './wash.ts';

/** The thrown salt, grain by grain. Places and lengths in mm. */
export interface Grains {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly size: Float64Array;
  /** How far the bloom grows from the grain, mm. */
  readonly reach: Float64Array;
  /** How hard it draws, 0..1. */
  readonly pull: Float64Array;
  /** How feathered its bloom is, 0..1. */
  readonly feather: Float64Array;
  /** How wet the wash was where it fell, 0..1. */
  readonly wet: Float64Array;
  /** How blurred its bloom is beside others in as wet a place, about 1. */
  readonly blur: Float64Array;
  /** How much paint gathers at the grain itself; 0 for most. */
  readonly speck: Float64Array;
}

/** More than a hand throws, and than prepare can march over in time. */
export const MOST_GRAINS = 400_000;

/** Drifts lie along the throw: long swathes, and clumps within. */
const SWATHES = { along: 95, across: 42, direction: -35 };
/** Tries for a place before a grain falls where it falls: bounds the time, at no visible cost. */
const TRIES = 40;

/** Throws the salt. The order and number of draws depend on nothing but the values and the box. */
export function throwGrains(
  values: SaltValues,
  box: Box,
  wash: Wash,
  random: (name: string) => RandomStream,
): Grains {
  const dm2 = (box.width * box.height) / 1e4;
  const count = Math.min(MOST_GRAINS, Math.round(values.salt * dm2));
  const grains = emptyGrains(count);
  const place = placer(values, box, random);
  const sizes = random('grain sizes');
  const habits = random('grain habits');
  for (let k = 0; k < count; k++) {
    const [x, y] = place();
    const size = values.grain * sizeShare(values.mixture / 100, sizes);
    const wet = wetnessAt(wash, x, y);
    grains.x[k] = x;
    grains.y[k] = y;
    grains.size[k] = size;
    grains.reach[k] = reachOf(size, wet) * Math.exp(0.22 * habits.normal());
    grains.wet[k] = wet;
    grains.pull[k] = pullOf(wet) * (0.62 + 0.38 * habits.next());
    grains.feather[k] = Math.min(1, values.feathering * (0.6 + 0.8 * habits.next()));
    grains.blur[k] = 0.55 + 0.9 * habits.next();
    grains.speck[k] = habits.next() < values.specks ? 0.25 + 0.75 * habits.next() : 0;
  }
  return grains;
}

function emptyGrains(count: number): Grains {
  const list = () => new Float64Array(count);
  return {
    x: list(),
    y: list(),
    size: list(),
    reach: list(),
    pull: list(),
    feather: list(),
    wet: list(),
    blur: list(),
    speck: list(),
  };
}

/** Places that are denser in the drifts: rejection against the density. */
function placer({ drifts }: SaltValues, box: Box, random: (name: string) => RandomStream) {
  const swathes = fractalNoise(box.lattice, SWATHES, { octaves: 4, gain: 0.62 }, random('drifts'));
  const places = random('grain places');
  const steep = 2.6 * drifts;
  return (): [number, number] => {
    let [x, y] = [0, 0];
    for (let attempt = 0; attempt < TRIES; attempt++) {
      x = places.between(0, box.width);
      y = places.between(0, box.height);
      if (places.next() < Math.exp(steep * (fractalAt(swathes, x, y) - 1.5))) break;
    }
    return [x, y];
  };
}

/** Size as a share of the largest: few large, many small as the mixture grows (crushed grains). */
function sizeShare(mixture: number, sizes: RandomStream): number {
  const spread = 1 - 0.86 * mixture * (1 - sizes.next() ** 2.8);
  return spread * Math.exp(0.1 * sizes.normal());
}

/**
 * How far a grain draws, mm: a small one farther for its size, for brine spreads before it is spent. Fitted
 * by eye to blooms of 2 to 15 mm.
 */
function reachOf(size: number, wet: number): number {
  return 1.9 * size ** 0.75 * (0.3 + 1.9 * wet) * smoothstep(wet / 0.12);
}

function pullOf(wet: number): number {
  return smoothstep(wet / 0.28);
}
