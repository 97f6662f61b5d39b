import { type Limit, limitOf } from '../../inspect/limit.ts';

/** What stands out along a meeting line of a profile, px. */
export interface Mark {
  /** In words, e.g. `a line 0.5 mm wide`. */
  readonly what: string;
  /** The value found over the largest inside. */
  readonly ratio: number;
}

export interface MarkOptions {
  readonly mmPerPixel: number;
  /** A smaller difference is not seen. */
  readonly least: number;
  /** Whether surroundings without their like are looked for: slow in fine pixels. */
  readonly lookForLikes: boolean;
  /** Whether the profile runs on from its end to its start; otherwise nothing is made of its ends. */
  readonly isWhole: boolean;
}

/** What marks are called: the first goes on with a width. */
export const LINE = 'a line';
export const JUMP = 'a jump';
export const LIKELESS = 'surroundings whose like is nowhere inside';

/** px. In each, a line (and a step) as wide as this is looked for. */
const WIDTHS = [1, 2, 4, 8];
/** mm to either side of a meeting line that count as its own. */
const OWN_MM = 3;
/** mm to either side that are looked for elsewhere. */
const LIKE_MM = 2.5;
/** The eye follows a line along the whole of an edge: a quarter of what is seen in a single place. */
const SHARE_OF_LEAST = 1 / 4;
/** Between whole pixels a stripe has no exact like. */
const MOST_LIKE = 1.4;

/**
 * What stands out of a profile, the means of the lines along an edge, at the lines where repeats meet:
 * - a line or a step, of so many widths, larger than any inside (`limitOf`);
 * - surroundings whose like is nowhere else, where everything inside has its like: a stripe or a thread
 *   cut narrower than all others, which is no larger a step than they are.
 */
export function marksOf(profile: Float64Array, meets: readonly number[], options: MarkOptions): Mark[] {
  const marks = WIDTHS.flatMap((width) => [
    ...outstanding(profile, meets, lineAt(width), width, options),
    ...outstanding(profile, meets, stepAt(width), width, options),
  ]);
  const found = options.lookForLikes ? [...marks, ...strangers(profile, meets, options)] : marks;
  return found.sort((a, b) => b.ratio - a.ratio);
}

interface Filter {
  readonly name: string;
  /** How much of it there is where it begins at this place. */
  at(profile: Float64Array, place: number): number;
  /** Where it begins if it touches a line at 0. */
  readonly touching: readonly number[];
}

function lineAt(width: number): Filter {
  const gap = width >> 1;
  return {
    name: LINE,
    at: (profile, place) =>
      mean(profile, place, width) -
      (mean(profile, place - gap - width, width) + mean(profile, place + width + gap, width)) / 2,
    touching: [...new Set([0, -(width >> 1), -width])],
  };
}

function stepAt(width: number): Filter {
  return {
    name: 'a step',
    at: (profile, place) => mean(profile, place, width) - mean(profile, place - width, width),
    touching: [0],
  };
}

function mean(profile: Float64Array, from: number, count: number): number {
  let sum = 0;
  for (let k = from; k < from + count; k++) sum += profile[wrap(k, profile.length)];
  return sum / count;
}

function wrap(place: number, length: number): number {
  return ((place % length) + length) % length;
}

function outstanding(
  profile: Float64Array,
  meets: readonly number[],
  filter: Filter,
  width: number,
  { mmPerPixel, least, isWhole }: MarkOptions,
): Mark[] {
  const own = Math.ceil(OWN_MM / mmPerPixel) + 2 * width;
  const strengths = Float64Array.from(profile, (_, place) => Math.abs(filter.at(profile, place)));
  const touching = (line: number) =>
    Math.max(...filter.touching.map((by) => strengths[wrap(line + by, profile.length)]));
  const inside = placesInside(profile.length, isWhole ? meets : [...meets, 0], own);
  if (inside.length < 4 * width) return [];
  const { limit, inside: largest } = limitAt(inside, touching, profile.length / width);
  const value = Math.max(...meets.map(touching));
  if (value <= Math.max(limit, least * SHARE_OF_LEAST)) return [];
  return [{ what: `${filter.name} ${show(width * mmPerPixel)} mm wide`, ratio: value / largest }];
}

function limitAt(places: readonly number[], valueAt: (place: number) => number, distinct: number): Limit {
  return limitOf(places.map(valueAt), places, distinct);
}

/** Places farther than `own` from any line at which repeats meet. */
function placesInside(length: number, meets: readonly number[], own: number): number[] {
  return Array.from({ length }, (_, place) => place).filter((place) =>
    meets.every((line) => Math.abs(wrap(place - line + (length >> 1), length) - (length >> 1)) > own),
  );
}

function strangers(profile: Float64Array, meets: readonly number[], options: MarkOptions): Mark[] {
  const { mmPerPixel, least } = options;
  const half = Math.max(4, Math.round(LIKE_MM / mmPerPixel));
  const inside = placesInside(profile.length, meets, half + Math.ceil(OWN_MM / mmPerPixel));
  if (inside.length < 4 * half) return [];
  const others = { inside, shifts: meets.map((line) => line - meets[0]) };
  const value = Math.max(...meets.map((place) => strangenessOf(profile, place, others, half)));
  if (value <= least * SHARE_OF_LEAST) return [];
  let largest = 0;
  for (const place of inside) {
    largest = Math.max(largest, strangenessOf(profile, place, others, half));
    if (value <= MOST_LIKE * largest) return [];
  }
  return [{ what: LIKELESS, ratio: value / largest }];
}

interface Others {
  readonly inside: readonly number[];
  /** From one meeting line to the others: as these are no likes of it, so are places that far apart no likes. */
  readonly shifts: readonly number[];
}

/** The root of the mean squared difference from the place inside whose surroundings are most alike. */
function strangenessOf(profile: Float64Array, place: number, { inside, shifts }: Others, half: number) {
  const { length } = profile;
  let nearest = Number.POSITIVE_INFINITY;
  for (const other of inside) {
    const away = (shift: number) => wrap(place + shift - other + (length >> 1), length) - (length >> 1);
    if (shifts.some((shift) => Math.abs(away(shift)) <= half)) continue;
    let sum = 0;
    for (let k = -half; k < half && sum < nearest; k++) {
      sum += (profile[wrap(place + k, length)] - profile[wrap(other + k, length)]) ** 2;
    }
    nearest = Math.min(nearest, sum);
  }
  return Number.isFinite(nearest) ? Math.sqrt(nearest / (2 * half)) : 0;
}

function show(mm: number): string {
  return mm < 0.1 ? mm.toFixed(2) : mm.toFixed(1);
}
