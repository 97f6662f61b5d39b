import { arc, bezier, curveThrough, loopThrough, stationsAlong } from './curve.ts';
import { type Contour, type Point, polar, type Shape } from './geometry.ts';

/** Half a width in mm at a fraction 0..1 of the length. */
export type Profile = (t: number) => number;

/** A piece whose edge runs smoothly through the points. */
export function smooth(...points: Point[]): Shape {
  return [loopThrough(points)];
}

/** A piece with straight edges. */
export function polygon(...points: Point[]): Shape {
  return [points];
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

/** An ellipse; `turn` in degrees. */
export function oval([cx, cy]: Point, acrossRadius: number, downRadius: number, turn = 0): Shape {
  const angle = (turn * Math.PI) / 180;
  return [
    arc([0, 0], 1, 0, 357).map(([x, y]) => {
      const [u, v] = [x * acrossRadius, y * downRadius];
      return [cx + u * Math.cos(angle) - v * Math.sin(angle), cy + u * Math.sin(angle) + v * Math.cos(angle)];
    }),
  ];
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

/** A star or scalloped round: the radius swings between two values. */
export function rosette(centre: Point, inner: number, outer: number, count: number, start = 0): Shape {
  const points: Point[] = [];
  for (let index = 0; index < count * 2; index++) {
    points.push(polar(start + (180 * index) / count, index % 2 ? inner : outer, centre));
  }
  return [loopThrough(points)];
}
