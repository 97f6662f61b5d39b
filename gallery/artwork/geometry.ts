/** A point in mm, x to the right and y down. */
export type Point = readonly [x: number, y: number];
/** A closed polyline; the last point joins the first. */
export type Contour = readonly Point[];
/** One cut piece of paper: the nonzero-winding inside of its contours, in mm. */
export type Shape = readonly Contour[];

/** Reads points as they are written down in a drawing: `x y, x y, ...`, mm. */
export function path(text: string): Point[] {
  return text.split(',').map((pair) => {
    const [x, y] = pair.trim().split(' ').map(Number);
    return [x, y] as const;
  });
}

/** How a shape is set down: flipped left to right first, then scaled, turned, and moved. */
export interface Placing {
  /** mm */
  readonly x?: number;
  /** mm */
  readonly y?: number;
  /** Degrees, clockwise as seen. */
  readonly turn?: number;
  readonly scale?: number;
  readonly flip?: boolean;
}

/** Sets a point down. */
export function placePoint([px, py]: Point, { x = 0, y = 0, turn = 0, scale = 1, flip }: Placing): Point {
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle) * scale, Math.sin(angle) * scale];
  const mirrored = flip ? -px : px;
  return [x + mirrored * cos - py * sin, y + mirrored * sin + py * cos];
}

/** Sets a shape down. */
export function place(shape: Shape, placing: Placing): Shape {
  return shape.map((contour) => contour.map((point) => placePoint(point, placing)));
}

/** Several shapes as one piece. */
export function join(...shapes: Shape[]): Shape {
  return shapes.flat();
}

export function distance([ax, ay]: Point, [bx, by]: Point): number {
  return Math.hypot(bx - ax, by - ay);
}

/** The point at a polar angle (degrees, clockwise from three o'clock) and radius (mm). */
export function polar(angle: number, radius: number, [cx, cy]: Point = [0, 0]): Point {
  const radians = (angle * Math.PI) / 180;
  return [cx + radius * Math.cos(radians), cy + radius * Math.sin(radians)];
}

/** Smallest box around a shape: left, top, right, bottom in mm. */
export function boundsOf(shape: Shape): readonly [number, number, number, number] {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const contour of shape) {
    for (const [x, y] of contour) {
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
    }
  }
  return [left, top, right, bottom];
}

/** The area inside a contour in mm2, positive where it turns clockwise as seen (y down). */
export function signedArea(contour: Contour): number {
  let twice = 0;
  contour.forEach(([x, y], index) => {
    const [nextX, nextY] = contour[(index + 1) % contour.length];
    twice += x * nextY - nextX * y;
  });
  return twice / 2;
}
