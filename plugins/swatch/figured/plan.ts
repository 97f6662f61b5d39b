import { type Box, type FieldShape, fastCount, fieldShape, STRAIGHT } from 'tenter';
import type { Prepared } from '../way.ts';
import { type Pose, posesOf } from './pose.ts';

/** The most cells that a composition is made on, and that the swatch in all its ways up has. */
const MOST_CELLS = 420_000;
const MOST_SWATCH_CELLS = 200_000;
/** The most times that the swatch is laid beside itself: a larger box repeats within itself, so far off that none counts it. */
const MOST_TIMES = 48;
/** No more of a swatch is looked at, in all its ways up together, than so many squares of the box's longer side. */
const MOST_SQUARES = 4;
/** Cells: at most 1 mm, and so many to the shorter side of the swatch and of the box. */
const LARGEST_CELL = 1;
const CELLS_OF_SWATCH = 100;
const CELLS_OF_BOX = 40;
/** Cells are no smaller than so many samples of the swatch, as long as so many go to the shorter side of the box. */
const SAMPLES_OF_CELL = 1.5;
const FEWEST_OF_BOX = 20;

/** What a composition is made on. All mm. The same for a sketch, but where a box holds next to no samples. */
export interface Plan {
  /** The box, or a part of it that it is made of whole. */
  readonly box: Box;
  readonly shape: FieldShape;
  readonly poses: readonly Pose[];
  /** Of the part of the swatch that is used. */
  readonly width: number;
  readonly height: number;
}

export function planOf(prepared: Prepared): Plan {
  const most = longestOf(prepared);
  const width = Math.min(prepared.width, most);
  const height = Math.min(prepared.height, most);
  const box = partOf(prepared.box, MOST_TIMES * width * height);
  const random = prepared.random('part of the swatch');
  const left = random.next() * (prepared.width - width);
  const top = random.next() * (prepared.height - height);
  const poses = posesOf(width, height, prepared.turned, prepared.mirrored).map((pose) => ({
    ...pose,
    x0: pose.x0 + left,
    y0: pose.y0 + top,
  }));
  const cell = Math.max(
    Math.min(
      LARGEST_CELL,
      Math.min(width, height) / CELLS_OF_SWATCH,
      Math.min(box.width, box.height) / CELLS_OF_BOX,
    ),
    Math.min(
      SAMPLES_OF_CELL * prepared.levels[0].mmPerSample,
      Math.min(box.width, box.height) / FEWEST_OF_BOX,
    ),
    Math.sqrt((box.width * box.height) / MOST_CELLS),
    Math.sqrt((width * height * poses.length) / MOST_SWATCH_CELLS),
  );
  return { box, shape: fieldShape(box, cell, fastCount), poses, width, height };
}

/** mm: a side of the part that is looked at, no shorter than the box's longer one. */
function longestOf({ box, turned, mirrored }: Prepared): number {
  const ways = posesOf(1, 1, turned, mirrored).length;
  return Math.max(box.width, box.height) * Math.max(1, Math.sqrt(MOST_SQUARES / ways));
}

/** A straight box of at most `area` that the whole repeats over too; the box itself where it is small enough. */
function partOf(box: Box, area: number): Box {
  const { kind, denominator } = box.layout;
  let across = 1;
  let down = 1;
  const size = () => ({ width: box.width / across, height: box.height / down });
  while (size().width * size().height > area) {
    const { width, height } = size();
    if (width >= height)
      across += across === 1 && kind === 'brick' ? denominator - 1 : kind === 'brick' ? denominator : 1;
    else down += down === 1 && kind === 'drop' ? denominator - 1 : kind === 'drop' ? denominator : 1;
  }
  if (across === 1 && down === 1) return box;
  if (kind === 'drop' && down === 1) down = denominator;
  if (kind === 'brick' && across === 1) across = denominator;
  const { width, height } = size();
  return { layout: STRAIGHT, width, height, lattice: { ax: width, ay: 0, bx: 0, by: height } };
}
