import { arc, bezier, curveThrough, loopThrough, stationsAlong } from './curve.ts';
import { type Contour, type Point, place, polar, type Shape } from './geometry.ts';

/** Half a width in mm at a fraction 0..1 of the length. */
export type Profile = (t: number) => number;

/** A piece whose edge runs smoothly through the points. */
export function smooth(points: readonly Point[]): Shape {
  return [loopThrough(points)];
}

/** A piece cut along several lines, one after the other, with a corner where two meet. */
export function outline(...lines: (readonly Point[])[]): Shape {
  return [lines.flat()];
}

/** A piece whose every edge is a smooth line through its points, with corners between the edges. */
export function edged(...edges: (readonly Point[])[]): Shape {
  return [edges.flatMap((edge) => (edge.length > 2 ? curveThrough(edge) : edge))];
}

export function disc(centre: Point, radius: number): Shape {
  return [arc(centre, radius, 0, 357)];
}

/**
 * A ribbon along a line, cut to a width of its own on either side: stems, veins, leaves, half-leaves.
 *
 * @param left  Half-width on the left of travel, mm; 0 along the whole length leaves the right half alone.
 * @param right Half-width on the right; the same as `left` if not given.
 */
export function ribbon(line: readonly Point[], left: Profile, right: Profile = left, count = 72): Shape {
  const stations = stationsAlong(line, count);
  const side = (profile: Profile, sign: number): Point[] =>
    stations.map(({ point, left: normal, t }) => {
      const reach = sign * profile(t);
      return [point[0] + normal[0] * reach, point[1] + normal[1] * reach];
    });
  const contour: Contour = [...side(left, 1), ...side(right, -1).reverse()];
  return [contour];
}

/** A profile of a leaf: pointed at both ends, widest (`halfWidth`, mm) at the fraction `peak`. */
export function leafProfile(halfWidth: number, peak = 0.4, sharpness = 1): Profile {
  // t^a (1 - t)^b is largest at a / (a + b).
  const [a, b] = [sharpness * peak * 2, sharpness * (1 - peak) * 2];
  const height = peak ** a * (1 - peak) ** b;
  return (t) => (halfWidth * t ** a * (1 - t) ** b) / height;
}

/** A profile that runs evenly from one half-width to another, mm. */
export function taper(from: number, to: number): Profile {
  return (t) => from + (to - from) * t;
}

/** No width: the ribbon's edge is the line itself. */
export const NOTHING: Profile = () => 0;

/** A stem with round ends, of even or tapering width. */
export function stem(points: readonly Point[], from: number, to = from): Shape {
  const line = curveThrough(points);
  return [
    ...ribbon(line, taper(from, to)),
    ...disc(points[0], from),
    ...(to > 0.05 ? disc(points[points.length - 1], to) : []),
  ];
}

/** A straight strip between two points, cut off square. */
export function straight(from: Point, to: Point, halfWidth: number): Shape {
  return ribbon([from, to], () => halfWidth, undefined, 2);
}

/** A drop-shaped petal from the origin towards three o'clock. */
export function petal(length: number, width: number, fullness = 0.62): Shape {
  const half = width / 2;
  const reach = length * fullness;
  return [
    [
      ...bezier([0, 0], [reach * 0.35, -half * 0.5], [reach * 0.55, -half], [reach, -half]),
      ...bezier([reach, -half], [length, -half], [length, half], [reach, half]),
      ...bezier([reach, half], [reach * 0.55, half], [reach * 0.35, half * 0.5], [0, 0]),
    ],
  ];
}

/** Copies of something drawn towards three o'clock, set evenly round a centre. */
export function wheel(count: number, start: number, draw: (angle: number, index: number) => Shape): Shape {
  return Array.from({ length: count }, (_, index) => draw(start + (360 * index) / count, index)).flat();
}

/** How the petals of a wheel are cut. */
export interface Petals {
  readonly count: number;
  /** mm */
  readonly length: number;
  /** mm */
  readonly width: number;
  readonly fullness?: number;
  /** Degrees of the first petal, clockwise from three o'clock. */
  readonly start?: number;
  /** From the centre to where a petal begins, mm. */
  readonly hole?: number;
}

/** Petals set evenly round a centre. */
export function petals(
  centre: Point,
  { count, length, width, fullness, start = 0, hole = 0 }: Petals,
): Shape {
  return wheel(count, start, (turn) => {
    const [x, y] = polar(turn, hole, centre);
    return place(petal(length, width, fullness), { x, y, turn });
  });
}

/** Discs as they are written down: `x y radius, x y radius, ...`, mm. */
export function dots(text: string): Shape {
  return text.split(',').flatMap((dot) => {
    const [x, y, radius] = dot.trim().split(' ').map(Number);
    return disc([x, y], radius);
  });
}
