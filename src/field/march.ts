import { Fault } from '../fault.ts';
import { ArrivalQueue } from './arrival-queue.ts';
import { eightAround, inverseDistances, stepsAround } from './eight-around.ts';
import { cellIndex, type FieldShape } from './periodic.ts';

/** Where fronts start. */
export interface FrontSeeds {
  /** Across the page in mm, anywhere on the plane; one per seed. */
  readonly x: ArrayLike<number>;
  /** Down the page in mm, anywhere on the plane; one per seed. */
  readonly y: ArrayLike<number>;
  /** When each starts; any finite number. All 0 where absent. */
  readonly start?: ArrayLike<number>;
}

/** When and from where each cell was reached. Plain data. */
export interface Arrivals {
  /** Per cell when the first front came, in the time of `slowness`; Infinity where none came in time. */
  readonly times: Float32Array;
  /** Per cell the number of the seed whose front came first, -1 where none came. */
  readonly winners: Int32Array;
  /** How many cells were reached. */
  readonly reached: number;
}

/** How far fronts go, and who hears of it. */
export interface MarchOptions {
  /** Fronts stop at this time; never where absent. */
  readonly until?: number;
  /**
   * Told how far it has come, as the number of cells reached, once per 65536; nobody is told where absent.
   */
  readonly onProgress?: (reached: number) => void;
}

/** Cells round a seed within so many cell widths start from their true distance: there the front bends most. */
const EXACT_CELLS = 2.5;
const SPANS = 4096;

/**
 * Fronts that start from seeds and cross each place at a given speed: solves |grad T| = slowness, with
 * T = start at the seeds, over a repeat. A front that meets another stops.
 *
 * First-order upwind fast marching (J. A. Sethian, *A fast marching level set method for monotonically
 * advancing fronts*, 1996): T is late by up to about a cell. T depends on no visiting order: of equal
 * arrivals the seed with the smaller number wins. Where two fronts meet at a glancing angle the winner
 * may be wrong some cells beside the true line. The winner is handed on from the steepest of the eight cells around.
 *
 * @param slowness 1 / speed per cell, time per mm; above 0. Infinity is a wall.
 * @throws Fault (effect) where `slowness` is not one number per cell, or a start is not finite.
 */
export function march(
  shape: FieldShape,
  slowness: Float32Array,
  seeds: FrontSeeds,
  { until = Number.POSITIVE_INFINITY, onProgress }: MarchOptions = {},
): Arrivals {
  requireCells(shape, slowness);
  const cells = shape.width * shape.height;
  const times = new Float32Array(cells).fill(Number.POSITIVE_INFINITY);
  const winners = new Int32Array(cells).fill(-1);
  const sources = startSeeds(shape, slowness, seeds, until, times, winners);
  const queue = new ArrivalQueue(times, ...spansFor(shape, slowness, seeds, until));
  for (const cell of sources) queue.push(cell);
  const reached = advance(shape, slowness, until, times, winners, queue, onProgress);
  return { times, winners, reached };
}

function requireCells({ width, height }: FieldShape, slowness: Float32Array): void {
  if (slowness.length === width * height) return;
  throw new Fault({
    kind: 'effect',
    expected: `${width * height} numbers, one per cell`,
    subject: 'the slowness of a march',
    received: `${slowness.length}`,
    remedy: 'Bake it on the same shape.',
  });
}

/** Gives the cells round each seed their time by straight distance; returns them, each once. */
function startSeeds(
  shape: FieldShape,
  slowness: Float32Array,
  { x: xs, y: ys, start }: FrontSeeds,
  until: number,
  times: Float32Array,
  winners: Int32Array,
): Set<number> {
  const { mmPerCellX, mmPerCellY } = shape;
  const reach = EXACT_CELLS * Math.max(mmPerCellX, mmPerCellY);
  const [across, down] = [Math.ceil(reach / mmPerCellX), Math.ceil(reach / mmPerCellY)];
  const started = new Set<number>();
  for (let seed = 0; seed < xs.length; seed++) {
    const from = start ? start[seed] : 0;
    if (!Number.isFinite(from)) throw badStart(seed, from);
    const column = Math.floor(xs[seed] / mmPerCellX);
    const row = Math.floor(ys[seed] / mmPerCellY);
    for (let j = -down; j <= down; j++) {
      const dy = (row + j + 0.5) * mmPerCellY - ys[seed];
      for (let i = -across; i <= across; i++) {
        const dx = (column + i + 0.5) * mmPerCellX - xs[seed];
        const distance = Math.sqrt(dx * dx + dy * dy);
        if (distance > reach) continue;
        const cell = cellIndex(shape, column + i, row + j);
        const time = Math.fround(from + distance * slowness[cell]);
        if (!(time <= until)) continue;
        if (time < times[cell] || (time === times[cell] && seed < winners[cell])) {
          times[cell] = time;
          winners[cell] = seed;
          started.add(cell);
        }
      }
    }
  }
  return started;
}

function badStart(seed: number, start: number): Fault {
  return new Fault({
    kind: 'effect',
    expected: 'a finite start',
    subject: `seed ${seed} of a march`,
    received: String(start),
    remedy: 'Leave the seed out where it never starts.',
  });
}

/** From the first start on, spans of half the time a front takes over a cell, so far as they suffice. */
function spansFor(
  { width, height, mmPerCellX, mmPerCellY }: FieldShape,
  slowness: Float32Array,
  { x, start }: FrontSeeds,
  until: number,
): [number, number, number] {
  let first = 0;
  if (start && x.length > 0) {
    first = start[0];
    for (let k = 1; k < x.length; k++) if (start[k] < first) first = start[k];
  }
  let sum = 0;
  let count = 0;
  const stride = Math.max(1, Math.floor((width * height) / 1024));
  for (let k = 0; k < slowness.length; k += stride) {
    if (!Number.isFinite(slowness[k])) continue;
    sum += slowness[k];
    count++;
  }
  const crossing = (Math.min(mmPerCellX, mmPerCellY) * sum) / Math.max(1, count) || 1;
  const whole = Number.isFinite(until) ? (until - first) / SPANS : 0;
  return [first, Math.max(crossing / 2, whole), SPANS];
}

/** What is known of a cell, as bits. */
const DONE = 1;
const AT_SEAM = 2;

/** Takes the cells in the order of their times and offers each one's neighbours a time. */
function advance(
  shape: FieldShape,
  slowness: Float32Array,
  until: number,
  times: Float32Array,
  winners: Int32Array,
  queue: ArrivalQueue,
  onProgress: MarchOptions['onProgress'],
): number {
  const { width, mmPerCellX, mmPerCellY } = shape;
  const marks = seamMarks(shape);
  const steps = stepsAround(shape);
  const around = new Int32Array(8);
  const beyond = new Int32Array(8);
  const nearness = inverseDistances(shape);
  let reached = 0;
  for (let cell = queue.pop(); cell >= 0; cell = queue.pop()) {
    if ((marks[cell] & DONE) !== 0) continue;
    if (marks[cell] === AT_SEAM) eightAround(shape, cell, around);
    else for (let n = 0; n < 8; n++) around[n] = cell + steps[n];
    marks[cell] |= DONE;
    if ((++reached & 65535) === 0) onProgress?.(reached);
    if (winners[cell] < 0) winners[cell] = winnerOf(times, winners, cell, around, nearness);
    for (let side = 0; side < 4; side++) {
      const next = around[side];
      const mark = marks[next];
      if ((mark & DONE) !== 0) continue;
      let across: number;
      let down: number;
      if (mark === AT_SEAM) {
        eightAround(shape, next, beyond);
        across = Math.min(times[beyond[0]], times[beyond[1]]);
        down = Math.min(times[beyond[2]], times[beyond[3]]);
      } else {
        across = Math.min(times[next - 1], times[next + 1]);
        down = Math.min(times[next - width], times[next + width]);
      }
      const time = Math.fround(upwind(across, down, mmPerCellX, mmPerCellY, slowness[next]));
      if (!(time <= until) || time >= times[next]) continue;
      times[next] = time;
      winners[next] = -1;
      queue.push(next);
    }
  }
  return reached;
}

/** Marks the cells of the box's outermost rows and columns: their neighbours may be copies. */
function seamMarks({ width, height }: FieldShape): Uint8Array {
  const marks = new Uint8Array(width * height);
  marks.fill(AT_SEAM, 0, width);
  marks.fill(AT_SEAM, width * (height - 1));
  for (let k = 0; k < marks.length; k += width) {
    marks[k] = AT_SEAM;
    marks[k + width - 1] = AT_SEAM;
  }
  return marks;
}

/** The winner of the neighbour from which the front came most steeply; of two the smaller number. */
function winnerOf(
  times: Float32Array,
  winners: Int32Array,
  cell: number,
  around: Int32Array,
  nearness: Float64Array,
): number {
  let winner = -1;
  let isShared = true;
  for (let n = 0; n < 8; n++) {
    const other = winners[around[n]];
    if (other < 0) continue;
    if (winner >= 0 && other !== winner) isShared = false;
    winner = other;
  }
  if (isShared) return winner;
  let steepest = 0;
  for (let n = 0; n < 8; n++) {
    const slope = (times[cell] - times[around[n]]) * nearness[n];
    if (slope < steepest || !(slope > 0)) continue;
    if (slope > steepest || winners[around[n]] < winner) winner = winners[around[n]];
    steepest = slope;
  }
  return winner;
}

/**
 * The larger root of ((T - a) / hx)^2 + ((T - b) / hy)^2 = s^2, or the front along one axis where it comes
 * sooner (Sethian 1996).
 */
function upwind(a: number, b: number, hx: number, hy: number, s: number): number {
  const alone = Math.min(a + hx * s, b + hy * s);
  if (alone <= a || alone <= b) return alone;
  const [xx, yy] = [hx * hx, hy * hy];
  const inside = (xx + yy) * s * s - (a - b) * (a - b);
  return (yy * a + xx * b + hx * hy * Math.sqrt(Math.max(0, inside))) / (xx + yy);
}
