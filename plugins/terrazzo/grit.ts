import {
  type Box,
  type CellWalls,
  cutOutline,
  farthestCorner,
  noWall,
  type OutlineCorner,
  outlineArea,
  poissonPoints,
  type RandomStream,
  shortestWay,
  squareOutline,
  wallAt,
} from 'tenter';
import { type Chip, sidesOf } from './chips.ts';
import type { TerrazzoValues } from './parameters.ts';

/** From the middle of one splinter to the next at least, in sizes of the grit. */
const APART = 1.15;
/** mm of cement between grit and chips. */
const CLEAR = 0.15;

/** Fine splinters wherever the chips leave room for them. */
export function strewGrit(
  box: Box,
  walls: CellWalls,
  chips: readonly (Chip | undefined)[],
  { grit, gritSize }: TerrazzoValues,
  random: RandomStream,
): Chip[] {
  if (grit === 0) return [];
  const places = poissonPoints(box, APART * gritSize, random);
  const sides = chips.map((chip) => chip && sidesOf(chip.corners));
  const found = noWall();
  /** How far a place lies outside the chip of a cell, mm; at least. */
  const outside = (cell: number, x: number, y: number) => {
    const chip = chips[cell];
    if (!chip) return Number.POSITIVE_INFINITY;
    const [dx, dy] = shortestWay(box.lattice, x - chip.x, y - chip.y);
    return (sides[cell] ?? []).reduce(
      (most, side) => Math.max(most, side.x * dx + side.y * dy - side.half),
      Number.NEGATIVE_INFINITY,
    );
  };
  const strewn: Chip[] = [];
  for (let k = 0; k < places.x.length; k++) {
    const [x, y] = [places.x[k], places.y[k]];
    const size = gritSize * (0.14 + 0.34 * random.next() ** 1.6);
    const corners = within(0.47 * APART * gritSize, splinter(size, random));
    const isWanted = random.next() < grit;
    const reach = farthestCorner(corners) + CLEAR;
    const { cell, distance } = wallAt(walls, x, y, 0, found);
    if (!isWanted || outside(cell, x, y) < reach) continue;
    // Only near a wall can a neighbour's chip be near.
    const around = distance < reach ? walls.behind.subarray(walls.starts[cell], walls.starts[cell + 1]) : [];
    if (around.some((neighbour) => outside(neighbour, x, y) < reach)) continue;
    strewn.push({ x, y, corners, area: outlineArea(corners).area });
  }
  return strewn;
}

/** No corner reaches farther than half-way to the next place. */
function within(most: number, corners: OutlineCorner[]): OutlineCorner[] {
  const by = Math.min(1, most / farthestCorner(corners));
  return corners.map(({ x, y, side }) => ({ x: x * by, y: y * by, side }));
}

function splinter(size: number, random: RandomStream): OutlineCorner[] {
  let corners: OutlineCorner[] = squareOutline(1.5 * size);
  const first = random.between(0, 2 * Math.PI);
  const count = 4 + random.below(2);
  for (let k = 0; k < count; k++) {
    const angle = first + ((k + random.between(-0.3, 0.3)) * 2 * Math.PI) / count;
    const side = { x: Math.cos(angle), y: Math.sin(angle), half: size * random.between(0.6, 1.15) };
    corners = cutOutline(corners, side);
  }
  return corners;
}
