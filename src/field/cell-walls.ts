import { nearestTwo, noneFound, type PointIndex, visitNear } from './points.ts';

/**
 * The walls of an irregular cellular pattern as straight lines, over every seam: the cells of Voronoi, as
 * S. Worley, *A cellular texture basis function* (1996), draws them. Plain data.
 *
 * Wall k of cell c, for k from `starts[c]` up to `starts[c + 1] - 1`, lies square to the way
 * (`normalX[k]`, `normalY[k]`), of length 1, at `half[k]` mm from the cell's point; `behind[k]` is the
 * cell on its other side (the same cell, where that is a copy of it). Walls are in order of their distance.
 */
export interface CellWalls {
  /** Of the points that the cells stand around. */
  readonly index: PointIndex;
  /** Where the walls of each cell begin in the lists below, one number more than there are cells. */
  readonly starts: Int32Array;
  /** Across the wall, away from the cell's point: its x, of a length of 1, one number per wall. */
  readonly normalX: Float64Array;
  /** Its y, one number per wall. */
  readonly normalY: Float64Array;
  /** mm; below 0 where a larger neighbour has pushed the wall past the point. */
  readonly half: Float64Array;
  /** The number of the cell behind each wall. */
  readonly behind: Int32Array;
  /** mm to the point behind. */
  readonly way: Float64Array;
}

/** A wall while its cell is cut out: where its line lies, and the corner at which it starts. */
interface Wall {
  readonly x: number;
  readonly y: number;
  readonly half: number;
  readonly behind: number;
  readonly way: number;
}
interface Corner {
  readonly x: number;
  readonly y: number;
  /** The wall that runs on from here. */
  readonly wall: Wall | undefined;
}

/**
 * Finds the walls of every cell: once, in `prepare`; some 20 microseconds per cell.
 *
 * Each cell begins as a square and is cut by the line half-way to one point after the other, nearest first,
 * until none farther off can reach its farthest corner (elementary geometry: a wall is part of the
 * perpendicular bisector of two points).
 *
 * @param index Of at least one point.
 * @param radii mm per point, where cells shall differ in size: the wall of two then runs where the tangents
 *   to their circles are of one length, so that circles which do not overlap lie in their own cells (the power
 *   diagram; F. Aurenhammer, *Power diagrams*, SIAM J. Comput. 16, 1987). A cell that its neighbours leave
 *   no room has no walls.
 */
export function cellWalls(index: PointIndex, radii?: ArrayLike<number>): CellWalls {
  const count = index.x.length;
  const starts = new Int32Array(count + 1);
  const found: Wall[] = [];
  const squares = Float64Array.from({ length: count }, (_, k) => (radii ? radii[k] * radii[k] : 0));
  const largest = squares.reduce((most, square) => Math.max(most, square), 0);
  for (let cell = 0; cell < count; cell++) {
    for (const wall of cutCell(index, cell, squares, largest)) found.push(wall);
    starts[cell + 1] = found.length;
  }
  return {
    index,
    starts,
    normalX: Float64Array.from(found, ({ x }) => x),
    normalY: Float64Array.from(found, ({ y }) => y),
    half: Float64Array.from(found, ({ half }) => half),
    behind: Int32Array.from(found, ({ behind }) => behind),
    way: Float64Array.from(found, ({ way }) => way),
  };
}

/** Points nearer than this, mm, are one. */
const SAME = 1e-9;

function cutCell(index: PointIndex, cell: number, squares: Float64Array, largest: number): Wall[] {
  const { ax, ay, bx, by } = index.lattice;
  const own = squares[cell];
  let radius = 3 * Math.sqrt((ax * by) / squares.length);
  for (;;) {
    let corners = squareOf(Math.hypot(ax, ay) + Math.hypot(bx, by));
    for (const wall of wallsNear(index, cell, squares, radius)) {
      if (wall.half < farthestOf(corners)) corners = cutBy(corners, wall);
    }
    // Of a point at `radius` or farther the wall is at least this far off.
    const beyond = (radius * radius + own - largest) / (2 * radius);
    if (corners.length === 0 || beyond >= farthestOf(corners)) return wallsIn(corners);
    radius *= 1.6;
  }
}

/** The walls that the points around would make with a cell, nearest point first. */
function wallsNear(index: PointIndex, cell: number, squares: Float64Array, radius: number): Wall[] {
  const walls: Wall[] = [];
  visitNear(index, index.x[cell], index.y[cell], radius, (behind, dx, dy) => {
    const way = Math.sqrt(dx * dx + dy * dy);
    if (way < SAME) return;
    const half = (way * way + squares[cell] - squares[behind]) / (2 * way);
    walls.push({ x: dx / way, y: dy / way, half, behind, way });
  });
  return walls.sort((a, b) => a.way - b.way || a.behind - b.behind || a.x - b.x || a.y - b.y);
}

function squareOf(half: number): Corner[] {
  return [
    { x: -half, y: -half, wall: undefined },
    { x: half, y: -half, wall: undefined },
    { x: half, y: half, wall: undefined },
    { x: -half, y: half, wall: undefined },
  ];
}

function farthestOf(corners: readonly Corner[]): number {
  let square = 0;
  for (const { x, y } of corners) square = Math.max(square, x * x + y * y);
  return Math.sqrt(square);
}

/** What is left of a convex outline on the near side of a wall. */
function cutBy(corners: readonly Corner[], wall: Wall): Corner[] {
  const left: Corner[] = [];
  for (let k = 0; k < corners.length; k++) {
    const here = corners[k];
    const next = corners[(k + 1) % corners.length];
    const inside = wall.half - here.x * wall.x - here.y * wall.y;
    const nextInside = wall.half - next.x * wall.x - next.y * wall.y;
    if (inside >= 0) left.push(here);
    if (inside >= 0 === nextInside >= 0) continue;
    const part = inside / (inside - nextInside);
    const x = here.x + part * (next.x - here.x);
    const y = here.y + part * (next.y - here.y);
    left.push({ x, y, wall: inside >= 0 ? wall : here.wall });
  }
  return left;
}

function wallsIn(corners: readonly Corner[]): Wall[] {
  const walls = new Set(corners.map(({ wall }) => wall).filter((wall) => wall !== undefined));
  return [...walls].sort((a, b) => a.half - b.half || a.behind - b.behind || a.x - b.x || a.y - b.y);
}

/** What the walls are at a place. */
export interface WallPlace {
  /** The number of the place's cell. */
  cell: number;
  /** The cell behind the nearest wall. */
  behind: number;
  /** mm to the nearest wall. */
  distance: number;
  /** mm to the nearest wall, had the cell its corners rounded. */
  rounded: number;
  /** mm to the right, from the place to the cell's point. */
  dx: number;
  /** mm down, from the place to the cell's point. */
  dy: number;
}

/** An answer to be filled in by `wallAt`. */
export function noWall(): WallPlace {
  return { cell: -1, behind: -1, distance: 0, rounded: 0, dx: 0, dy: 0 };
}

const nearest = noneFound();

/**
 * The distance to the nearest wall of the cell that a place stands in, mm: the true one. (The difference of
 * the distances to the two nearest points, F2 - F1, makes a line as much as 1 / sin(a / 2) times as wide where
 * the ways to the two points meet at an angle a; and the wall of the second nearest point need not be the nearest wall.)
 *
 * Also a smooth minimum of the distances d to all walls, max(0, -r ln(sum of exp(-d / r))): its level lines have
 * corners of about r mm radius, as for leading, folds, grout and chips. It is 0 at the walls, nowhere above the
 * true distance, and below it by at most r ln n in a cell of n walls (1.8 r for six; in the middle of a side
 * of length l by about 2 r exp(-l / 2r)).
 *
 * @param rounding r in mm; 0 leaves the corners sharp and saves the time.
 * @param found    Receives the answer, so that a loop over pixels makes no garbage.
 */
export function wallAt(
  walls: CellWalls,
  x: number,
  y: number,
  rounding: number,
  found: WallPlace,
): WallPlace {
  const { first, dx1, dy1 } = nearestTwo(walls.index, x, y, nearest);
  found.cell = first;
  found.dx = dx1;
  found.dy = dy1;
  walkHome(walls, found);
  found.rounded = rounding > 0 ? roundedDistance(walls, found, rounding) : found.distance;
  return found;
}

/** More walls than any walk goes through. */
const MOST_WALLS = 10_000;

/** From cell to cell through the wall that the place is most beyond, until it is beyond none. */
function walkHome(walls: CellWalls, found: WallPlace): void {
  const { starts, normalX, normalY, half, behind, way } = walls;
  startWithWalls(walls, found);
  for (let step = 0; step < MOST_WALLS; step++) {
    const { cell, dx, dy } = found;
    let least = Number.POSITIVE_INFINITY;
    let nearestWall = -1;
    for (let k = starts[cell]; k < starts[cell + 1]; k++) {
      const distance = half[k] + dx * normalX[k] + dy * normalY[k];
      if (distance >= least) continue;
      least = distance;
      nearestWall = k;
    }
    found.distance = Math.max(0, least);
    found.behind = behind[nearestWall];
    if (least >= -SAME) return;
    found.cell = behind[nearestWall];
    found.dx = dx + way[nearestWall] * normalX[nearestWall];
    found.dy = dy + way[nearestWall] * normalY[nearestWall];
  }
}

/** A point whose cell has no room cannot be walked from: any other can. */
function startWithWalls({ starts, index }: CellWalls, found: WallPlace): void {
  const from = found.cell;
  let cell = from;
  while (starts[cell] === starts[cell + 1]) cell = (cell + 1) % index.x.length;
  found.dx += index.x[cell] - index.x[from];
  found.dy += index.y[cell] - index.y[from];
  found.cell = cell;
}

function roundedDistance(
  { starts, normalX, normalY, half }: CellWalls,
  { cell, dx, dy, distance }: WallPlace,
  rounding: number,
): number {
  let sum = 0;
  for (let k = starts[cell]; k < starts[cell + 1]; k++) {
    sum += Math.exp((distance - (half[k] + dx * normalX[k] + dy * normalY[k])) / rounding);
  }
  return Math.max(0, distance - rounding * Math.log(sum));
}

/**
 * The share of a spot that a straight line of `width` mm covers, where the line's middle passes `distance` mm
 * from the middle of the spot: the exact mean over a spot `spot` mm across. Summed over the pixels that lie
 * across a line it is the line's width, so a line keeps its weight at any density, thinner than a pixel too.
 *
 * @param distance 0 or more, such as `wallAt` gives.
 * @param spot     mm; that of a pixel, and as much more as the line shall be soft. Above 0.
 */
export function lineCover(distance: number, width: number, spot: number): number {
  const covered = Math.min(distance + spot / 2, width / 2) - Math.max(distance - spot / 2, -width / 2);
  return Math.max(0, covered / spot);
}
