/** A straight side: the line square to the way (x, y), of length 1, at `half` mm from the middle; inside is the middle's side. */
export interface OutlineSide {
  /** Of the way square to the side, its x; the way is of length 1, no unit. */
  readonly x: number;
  /** Its y, no unit. */
  readonly y: number;
  /** mm; below 0 where the middle lies outside. */
  readonly half: number;
}

/** A corner of a convex outline, mm from its middle, and the side that runs on from it, where that was cut. */
export interface OutlineCorner<Side extends OutlineSide = OutlineSide> {
  /** mm to the right of the middle. */
  readonly x: number;
  /** mm below the middle. */
  readonly y: number;
  /** The side that runs on from it; undefined where none was cut there. */
  readonly side: Side | undefined;
}

/** A square around the middle to begin with, `half` mm to each side. */
export function squareOutline<Side extends OutlineSide>(half: number): OutlineCorner<Side>[] {
  return [
    { x: -half, y: -half, side: undefined },
    { x: half, y: -half, side: undefined },
    { x: half, y: half, side: undefined },
    { x: -half, y: half, side: undefined },
  ];
}

/** What is left of a convex outline inside a side: no corners where nothing is. */
export function cutOutline<Side extends OutlineSide>(
  corners: readonly OutlineCorner<Side>[],
  side: Side,
): OutlineCorner<Side>[] {
  const left: OutlineCorner<Side>[] = [];
  for (let k = 0; k < corners.length; k++) {
    const here = corners[k];
    const next = corners[(k + 1) % corners.length];
    const inside = side.half - here.x * side.x - here.y * side.y;
    const nextInside = side.half - next.x * side.x - next.y * side.y;
    if (inside >= 0) left.push(here);
    if (inside >= 0 === nextInside >= 0) continue;
    const part = inside / (inside - nextInside);
    const x = here.x + part * (next.x - here.x);
    const y = here.y + part * (next.y - here.y);
    left.push({ x, y, side: inside >= 0 ? side : here.side });
  }
  return left;
}

/** mm from the middle to the farthest corner; 0 where there is none. */
export function farthestCorner(corners: readonly OutlineCorner[]): number {
  let square = 0;
  for (const { x, y } of corners) square = Math.max(square, x * x + y * y);
  return Math.sqrt(square);
}

/** The area of an outline, mm2, and its centre of mass, mm from its middle. */
export function outlineArea(corners: readonly OutlineCorner[]): { area: number; x: number; y: number } {
  let [twice, x, y] = [0, 0, 0];
  for (let k = 0; k < corners.length; k++) {
    const here = corners[k];
    const next = corners[(k + 1) % corners.length];
    const cross = here.x * next.y - next.x * here.y;
    twice += cross;
    x += cross * (here.x + next.x);
    y += cross * (here.y + next.y);
  }
  return twice > 0 ? { area: twice / 2, x: x / (3 * twice), y: y / (3 * twice) } : { area: 0, x: 0, y: 0 };
}
