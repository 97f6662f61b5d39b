import { distance, type Point } from './geometry.ts';

/** Steps per spline segment: at 25 mm a segment, chords stray less than 0.02 mm from the curve. */
const STEPS_PER_SEGMENT = 24;

/**
 * A smooth open line through the given points: a centripetal Catmull-Rom spline
 * (P. J. Barry and R. N. Goldman, "A recursive evaluation algorithm for a class of Catmull-Rom splines",
 * SIGGRAPH 1988; the centripetal knots after Lee 1989), which neither loops nor overshoots.
 */
export function curveThrough(points: readonly Point[]): Point[] {
  const first = beyond(points[0], points[1]);
  const last = beyond(points[points.length - 1], points[points.length - 2]);
  const padded = [first, ...points, last];
  const line: Point[] = [];
  for (let index = 1; index < padded.length - 2; index++) {
    pushSegment(line, padded[index - 1], padded[index], padded[index + 1], padded[index + 2]);
  }
  line.push(points[points.length - 1]);
  return line;
}

/** A smooth closed line through the given points. */
export function loopThrough(points: readonly Point[]): Point[] {
  const count = points.length;
  const line: Point[] = [];
  for (let index = 0; index < count; index++) {
    pushSegment(
      line,
      points[(index + count - 1) % count],
      points[index],
      points[(index + 1) % count],
      points[(index + 2) % count],
    );
  }
  return line;
}

/** A cubic Bezier curve as points, its ends included. */
export function bezier(a: Point, b: Point, c: Point, d: Point, steps = STEPS_PER_SEGMENT): Point[] {
  return Array.from({ length: steps + 1 }, (_, step) => {
    const t = step / steps;
    const u = 1 - t;
    const [wa, wb, wc, wd] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
    return [
      wa * a[0] + wb * b[0] + wc * c[0] + wd * d[0],
      wa * a[1] + wb * b[1] + wc * c[1] + wd * d[1],
    ] as const;
  });
}

/** An arc as points, from one angle to another (degrees, clockwise from three o'clock), its ends included. */
export function arc([cx, cy]: Point, radius: number, from: number, to: number): Point[] {
  const steps = Math.max(2, Math.ceil(Math.abs(to - from) / 3));
  return Array.from({ length: steps + 1 }, (_, step) => {
    const angle = ((from + ((to - from) * step) / steps) * Math.PI) / 180;
    return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)] as const;
  });
}

/** A place on a line. */
export interface Station {
  readonly point: Point;
  /** Unit vector along the line. */
  readonly along: Point;
  /** Unit vector to the left of travel as seen with y down. */
  readonly left: Point;
  /** Arc length from the start over the whole length, 0..1. */
  readonly t: number;
}

/** Prepares a line to be asked for many stations, each by its fraction 0..1 of the length. */
export function walkAlong(line: readonly Point[]): (t: number) => Station {
  const lengths = cumulativeLengths(line);
  return (t) => stationOf(line, lengths, t);
}

/** Evenly spaced stations on a line, its ends included. */
export function stationsAlong(line: readonly Point[], count: number): Station[] {
  const walk = walkAlong(line);
  return Array.from({ length: count }, (_, index) => walk(index / (count - 1)));
}

/** The station at `t` (0..1) of a line's length. */
export function stationAt(line: readonly Point[], t: number): Station {
  return walkAlong(line)(t);
}

/** The length of a line in mm. */
export function lengthOf(line: readonly Point[]): number {
  return cumulativeLengths(line)[line.length - 1];
}

/** The part of a line between two fractions of its length. */
export function partOf(line: readonly Point[], from: number, to: number, count = 48): Point[] {
  const walk = walkAlong(line);
  return Array.from({ length: count + 1 }, (_, index) => walk(from + ((to - from) * index) / count).point);
}

function cumulativeLengths(line: readonly Point[]): Float64Array {
  const lengths = new Float64Array(line.length);
  for (let index = 1; index < line.length; index++) {
    lengths[index] = lengths[index - 1] + distance(line[index - 1], line[index]);
  }
  return lengths;
}

function stationOf(line: readonly Point[], lengths: Float64Array, t: number): Station {
  const target = t * lengths[line.length - 1];
  const index = chordAt(lengths, target);
  const [a, b] = [line[index - 1], line[index]];
  const span = lengths[index] - lengths[index - 1] || 1;
  const share = (target - lengths[index - 1]) / span;
  const along = directionAt(line, index, share);
  return {
    point: [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share],
    along,
    left: [along[1], -along[0]],
    t,
  };
}

/** The chord that holds a length from the start: between points `index - 1` and `index`. */
function chordAt(lengths: Float64Array, target: number): number {
  let [low, high] = [1, lengths.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lengths[middle] < target) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Blends the directions of neighbouring chords, so that ribbons have no facets. */
function directionAt(line: readonly Point[], index: number, share: number): Point {
  const here = chord(line, index);
  const other = chord(line, share < 0.5 ? Math.max(1, index - 1) : Math.min(line.length - 1, index + 1));
  const weight = Math.abs(share - 0.5);
  const x = here[0] * (1 - weight) + other[0] * weight;
  const y = here[1] * (1 - weight) + other[1] * weight;
  const length = Math.hypot(x, y) || 1;
  return [x / length, y / length];
}

function chord(line: readonly Point[], index: number): Point {
  const [a, b] = [line[index - 1], line[index]];
  const length = distance(a, b) || 1;
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

function beyond(end: Point, next: Point): Point {
  return [2 * end[0] - next[0], 2 * end[1] - next[1]];
}

function pushSegment(line: Point[], p0: Point, p1: Point, p2: Point, p3: Point): void {
  const t0 = 0;
  const t1 = t0 + knot(p0, p1);
  const t2 = t1 + knot(p1, p2);
  const t3 = t2 + knot(p2, p3);
  for (let step = 0; step < STEPS_PER_SEGMENT; step++) {
    const t = t1 + ((t2 - t1) * step) / STEPS_PER_SEGMENT;
    const a1 = mix(p0, p1, t0, t1, t);
    const a2 = mix(p1, p2, t1, t2, t);
    const a3 = mix(p2, p3, t2, t3, t);
    line.push(mix(mix(a1, a2, t0, t2, t), mix(a2, a3, t1, t3, t), t1, t2, t));
  }
}

function knot(a: Point, b: Point): number {
  return Math.max(1e-6, Math.sqrt(distance(a, b)));
}

function mix(a: Point, b: Point, from: number, to: number, t: number): Point {
  const share = (t - from) / (to - from);
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
}
