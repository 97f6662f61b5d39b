import {
  type Box,
  type CellWalls,
  cellWalls,
  cutOutline,
  farthestCorner,
  indexPoints,
  type OutlineCorner,
  type OutlineSide,
  outlineArea,
  poissonPoints,
  type RandomStream,
  squareOutline,
} from 'tenter';
import type { TerrazzoValues } from './parameters.ts';

/** A chip: a convex outline around its centre of mass, mm. */
export interface Chip {
  readonly x: number;
  readonly y: number;
  readonly corners: readonly OutlineCorner[];
  readonly area: number;
}

/** Chips do not lie closer to the walls of their cells than this, mm. */
const LEAST_GAP = 0.22;
/** mm2; and of the square of its reach: splinters thinner than a seventh of their length break up. */
const LEAST_AREA = 0.3;
const SLENDEREST = 0.55;
/** mm from chip to chip: what is finer is grit. */
const FINEST = 1.8;
/** Of the cells so many stay empty: the cement shows in pools. */
const EMPTY = 0.07;

/**
 * Chips that do not overlap: each lies in its own cell of a power diagram, whose walls keep clear of the
 * larger neighbours' circles, and is cut by a few lines of its own, so that no two gaps run alongside.
 * In order of the walls' cells; a cell without a chip has none.
 */
export function breakChips(
  box: Box,
  { chips, mix, cover }: TerrazzoValues,
  random: (name: string) => RandomStream,
): { walls: CellWalls; chips: (Chip | undefined)[] } {
  const apart = Math.max(FINEST, chips * (0.8 - 0.6 * mix));
  const places = poissonPoints(box, apart, random('places'));
  const sizes = random('sizes');
  // Many small ones and a few large: the sieve's curve is steep.
  const radii = Float64Array.from(
    places.x,
    () => apart / 2 + (chips / 2 - apart / 2) * sizes.next() ** (1 + 2.2 * mix),
  );
  const walls = cellWalls(indexPoints(box, places), radii);
  const breaking = random('breaking');
  const broken = Array.from(radii, (radius, cell) => breakOne(walls, cell, radius, breaking));
  return { walls, chips: shrunk(broken, (cover / 100) * box.width * box.height, random('shrinking')) };
}

function breakOne(walls: CellWalls, cell: number, radius: number, random: RandomStream): Chip | undefined {
  const cuts = cutsOf(radius, random);
  const isEmpty = random.next() < EMPTY;
  const { starts, normalX, normalY, half } = walls;
  if (isEmpty || starts[cell] === starts[cell + 1]) return undefined;
  let corners: OutlineCorner[] = squareOutline(8 * radius);
  for (let k = starts[cell]; k < starts[cell + 1]; k++) {
    corners = cutOutline(corners, { x: normalX[k], y: normalY[k], half: half[k] - LEAST_GAP });
  }
  for (const cut of cuts) corners = cutOutline(corners, cut);
  const { area, x, y } = outlineArea(corners);
  const { index } = walls;
  const moved = corners.map((corner) => ({ x: corner.x - x, y: corner.y - y, side: undefined }));
  if (area < LEAST_AREA || area < SLENDEREST * farthestCorner(moved) ** 2) return undefined;
  return { x: index.x[cell] + x, y: index.y[cell] + y, corners: moved, area };
}

/** Where a stone of a radius split: three to five lines, some close to its middle; else large ones came out round. */
function cutsOf(radius: number, random: RandomStream): OutlineSide[] {
  const count = 3 + random.below(3);
  const first = random.between(0, 2 * Math.PI);
  return Array.from({ length: count }, (_, k) => {
    const angle = first + ((k + random.between(-0.3, 0.3)) * 2 * Math.PI) / count;
    return { x: Math.cos(angle), y: Math.sin(angle), half: radius * random.between(0.5, 1.05) };
  });
}

/** Each chip drawn in towards its middle, so that all together cover an area as nearly as they can. */
function shrunk(
  chips: readonly (Chip | undefined)[],
  wanted: number,
  random: RandomStream,
): (Chip | undefined)[] {
  const own = chips.map(() => random.between(0.86, 1));
  const areaAt = (scale: number) =>
    chips.reduce((sum, chip, k) => sum + (chip ? chip.area * Math.min(1, own[k] * scale) ** 2 : 0), 0);
  let [low, high] = [0, 1.2];
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2;
    if (areaAt(middle) < wanted) low = middle;
    else high = middle;
  }
  return chips.map((chip, k) => chip && scaled(chip, Math.min(1, own[k] * low)));
}

function scaled({ x, y, corners, area }: Chip, by: number): Chip {
  return {
    x,
    y,
    corners: corners.map((corner) => ({ x: corner.x * by, y: corner.y * by, side: undefined })),
    area: area * by * by,
  };
}

/** The sides of an outline, counted from its middle. */
export function sidesOf(corners: readonly OutlineCorner[]): OutlineSide[] {
  return corners.flatMap((here, k) => {
    const next = corners[(k + 1) % corners.length];
    const length = Math.hypot(next.x - here.x, next.y - here.y);
    if (length < 1e-6) return [];
    const x = (next.y - here.y) / length;
    const y = (here.x - next.x) / length;
    return [{ x, y, half: here.x * x + here.y * y }];
  });
}
