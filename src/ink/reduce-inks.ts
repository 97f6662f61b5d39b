import { colourDifference, type Lab, labOfLinear } from '../colour/index.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import type { Ink } from './card.ts';
import { LEVELS } from './eye-metric.ts';
import { bytesOf, labByTable } from './plain-peaks.ts';
import type { Tally } from './tally.ts';
import { createColourUnmixer } from './unmix-colour.ts';

/** Colours that the choice of inks is tried on. */
const MOST_TRIED = 300;
/** Colours that are tried as the next ink. */
const TRIED_NEXT = 8;
/** CIEDE2000 around a colour within which an ink of it is of use. */
const USE = 14;
/** An ink that is missed by no more than this part of the error is a mix of the others. */
const MISSED = 1.02;
/** Below this mean CIEDE2000 more inks are of no use. */
const ENOUGH = 0.25;

interface Tried {
  readonly colour: Ink['colour'];
  readonly lab: Lab;
  readonly weight: number;
}

/**
 * The inks that mixes of which come nearest to a painted design, for every number up to `most`: by adding the one
 * that is of most use, and leaving one out again that the others can mix.
 *
 * @param fixed Inks that each set has, e.g. the ground.
 * @returns By their number, from 1 on; fewer than `most` where more are of no use.
 */
export function reduceInks(
  tally: Tally,
  most: number,
  fixed: readonly Ink['colour'][] = [],
): Ink['colour'][][] {
  const tried = triedOf(tally);
  const sets = new Map<number, { colours: Ink['colour'][]; cost: number }>();
  let colours: Ink['colour'][] = fixed.length > 0 ? [...fixed] : [tried[0].colour];
  let errors = errorsOf(colours, tried);
  const keep = () => {
    const cost = costOf(errors, tried);
    const before = sets.get(colours.length);
    if (before && before.cost <= cost) return false;
    sets.set(colours.length, { colours: [...colours], cost });
    return true;
  };
  keep();
  for (let turn = 0; turn < 3 * most && colours.length < most; turn++) {
    const next = bestOf(candidatesOf(errors, tried, colours), colours, tried);
    if (!next) break;
    colours = [...colours, next];
    errors = errorsOf(colours, tried);
    keep();
    for (;;) {
      const fewer = leaveOut(
        colours,
        fixed.length,
        tried,
        costOf(errors, tried),
        sets.get(colours.length - 1)?.cost,
      );
      if (!fewer) break;
      colours = fewer;
      errors = errorsOf(colours, tried);
      keep();
    }
    if (meanOf(errors, tried) < ENOUGH) break;
  }
  return [...sets.entries()].sort(([a], [b]) => a - b).map(([, set]) => set.colours);
}

/** Without the ink that is missed least, where that is better than any set of so few before, or it is not missed. */
function leaveOut(
  colours: readonly Ink['colour'][],
  fixed: number,
  tried: readonly Tried[],
  cost: number,
  before = Number.POSITIVE_INFINITY,
): Ink['colour'][] | undefined {
  if (colours.length < 3) return undefined;
  let best: Ink['colour'][] | undefined;
  let least = Number.POSITIVE_INFINITY;
  // The last is the one that was just added.
  for (let index = fixed; index < colours.length - 1; index++) {
    const left = colours.filter((_, at) => at !== index);
    const without = costOf(errorsOf(left, tried), tried);
    if (without < least) [best, least] = [left, without];
  }
  return least < before * 0.98 || least < cost * MISSED ? best : undefined;
}

/** Cells of the colour cube with the mean of their pixels, the heaviest first. */
function triedOf({ colours, counts }: Tally): Tried[] {
  const cells = new Map<number, { count: number; sums: [number, number, number] }>();
  colours.forEach((colour, at) => {
    const bytes = bytesOf(colour);
    const key = ((bytes[0] >> 4) << 8) | ((bytes[1] >> 4) << 4) | (bytes[2] >> 4);
    const cell = cells.get(key) ?? { count: 0, sums: [0, 0, 0] };
    cell.count += counts[at];
    for (let channel = 0; channel < 3; channel++) cell.sums[channel] += bytes[channel] * counts[at];
    cells.set(key, cell);
  });
  return [...cells.values()]
    .sort((a, b) => b.count - a.count)
    .slice(0, MOST_TRIED)
    .map(({ count, sums }) => {
      const colour = sums.map((all) => Math.round(all / count)) as unknown as Ink['colour'];
      return { colour, lab: labByTable(colour), weight: count };
    });
}

/** CIEDE2000 of each colour from its mix of some inks. */
function errorsOf(colours: readonly Ink['colour'][], tried: readonly Tried[]): Float64Array {
  const unmixer = createColourUnmixer(Float64Array.from(colours.flat(), (byte) => byte / 255));
  const lights = colours.map((colour) => colour.map((byte) => decodeSrgb(byte / 255)));
  const light = [0, 0, 0];
  return Float64Array.from(tried, ({ colour, lab }) => {
    unmixer.aim(...(colour.map((byte) => (byte * LEVELS) / 255) as [number, number, number]));
    unmixer.tell(unmixer.search());
    light.fill(0);
    for (let part = 0; part < 3; part++)
      for (let channel = 0; channel < 3; channel++)
        light[channel] += unmixer.amounts[part] * lights[unmixer.inks[part]][channel];
    return colourDifference(lab, labOfLinear(light[0], light[1], light[2]));
  });
}

/** What is made small: squares, so that a few colours that are far off count. */
function costOf(errors: Float64Array, tried: readonly Tried[]): number {
  return errors.reduce((sum, error, at) => sum + error * error * tried[at].weight, 0);
}

function meanOf(errors: Float64Array, tried: readonly Tried[]): number {
  const all = tried.reduce((sum, { weight }) => sum + weight, 0);
  return errors.reduce((sum, error, at) => sum + error * tried[at].weight, 0) / all;
}

/** Colours around which most is off, and those that are off most, none near to another. */
function candidatesOf(
  errors: Float64Array,
  tried: readonly Tried[],
  colours: readonly Ink['colour'][],
): Ink['colour'][] {
  const use = tried.map(({ lab }) =>
    tried.reduce((sum, other, at) => {
      const away = Math.hypot(lab.L - other.lab.L, lab.a - other.lab.a, lab.b - other.lab.b);
      return away < USE ? sum + errors[at] * errors[at] * other.weight * (1 - away / USE) : sum;
    }, 0),
  );
  const found: Ink['colour'][] = [];
  const take = (figures: ArrayLike<number>, count: number) => {
    const order = tried.map((_, at) => at).sort((a, b) => figures[b] - figures[a] || a - b);
    for (const at of order) {
      if (found.length >= count || errors[at] < 0.5) break;
      const isNew = [...found, ...colours].every(
        (other) => colourDifference(tried[at].lab, labByTable(other)) > 3,
      );
      if (isNew) found.push(tried[at].colour);
    }
  };
  take(use, TRIED_NEXT / 2);
  take(
    errors.map((error, at) => error ** 2 * Math.sqrt(tried[at].weight)),
    (3 * TRIED_NEXT) / 4,
  );
  take(errors, TRIED_NEXT);
  return found;
}

function bestOf(
  candidates: readonly Ink['colour'][],
  colours: readonly Ink['colour'][],
  tried: readonly Tried[],
): Ink['colour'] | undefined {
  let best: Ink['colour'] | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const cost = costOf(errorsOf([...colours, candidate], tried), tried);
    if (cost < least) [best, least] = [candidate, cost];
  }
  return best;
}
