import type { Level, Prepared } from '../way.ts';
import type { Pose } from './pose.ts';

/** Samples per cell and side: patches are laid to a quarter of a cell. */
export const FINE = 4;

/** What is compared of each sample: the planes by the root of their light, then how that rises to the right and down. */
export interface Sheet {
  readonly pose: Pose;
  /** Fine samples across. */
  readonly width: number;
  /** Fine samples down. */
  readonly height: number;
  /** `count` features of each fine sample, sample by sample. */
  readonly features: Float32Array;
  /** Their means over the cell that begins at a sample. */
  readonly means: Float32Array;
  /** The means of whole cells, `cellsAcross` to a row: what is looked through first. */
  readonly cells: Float32Array;
  readonly cellsAcross: number;
  /** How much goes on in the cell that begins at a sample; 1 on average. */
  readonly busy: Float32Array;
}

/** Weight of a feature of slope against one of colour. */
const SLOPE_WEIGHT = 0.6;

export interface Sheets {
  readonly sheets: readonly Sheet[];
  /** Features per sample. */
  readonly count: number;
}

/** The swatch in all its ways up, on samples a quarter of a cell wide. */
export function sheetsOf(prepared: Prepared, poses: readonly Pose[], cellX: number, cellY: number): Sheets {
  const level = levelFor(prepared.levels, Math.min(cellX, cellY) / FINE);
  const planes = level.planes.length;
  const count = planes + 2;
  const raw = poses.map((pose) => rawSheet(level, pose, cellX / FINE, cellY / FINE, count));
  normalise(
    raw.map(({ features }) => features),
    planes,
    count,
  );
  const sheets = raw.map((sheet) => {
    const { means, busy } = cellMeans(sheet, count);
    return { ...sheet, means, busy, ...wholeCells(sheet, means, count) };
  });
  return { sheets, count };
}

/** The coarsest level that is no coarser than wanted; the finest where none is. */
function levelFor(levels: readonly Level[], mm: number): Level {
  let best = levels[0];
  for (const level of levels) if (level.mmPerSample <= mm * 1.2) best = level;
  return best;
}

type RawSheet = Pick<Sheet, 'pose' | 'width' | 'height' | 'features'>;

function rawSheet(level: Level, pose: Pose, mmX: number, mmY: number, count: number): RawSheet {
  const width = Math.max(1, Math.floor(pose.width / mmX));
  const height = Math.max(1, Math.floor(pose.height / mmY));
  const features = new Float32Array(width * height * count);
  const planes = level.planes.length;
  for (let j = 0, at = 0; j < height; j++) {
    for (let i = 0; i < width; i++, at += count) {
      const u = (i + 0.5) * mmX;
      const v = (j + 0.5) * mmY;
      const x = (pose.xu * u + pose.xv * v + pose.x0) / level.mmPerSample - 0.5;
      const y = (pose.yu * u + pose.yv * v + pose.y0) / level.mmPerSample - 0.5;
      const i0 = Math.min(level.width - 1, Math.max(0, Math.floor(x)));
      const j0 = Math.min(level.height - 1, Math.max(0, Math.floor(y)));
      const i1 = Math.min(level.width - 1, i0 + 1);
      const j1 = Math.min(level.height - 1, j0 + 1);
      const p = Math.min(1, Math.max(0, x - i0));
      const q = Math.min(1, Math.max(0, y - j0));
      for (let plane = 0; plane < planes; plane++) {
        const values = level.planes[plane];
        const above = values[i0 + j0 * level.width] * (1 - p) + values[i1 + j0 * level.width] * p;
        const below = values[i0 + j1 * level.width] * (1 - p) + values[i1 + j1 * level.width] * p;
        features[at + plane] = Math.sqrt(Math.max(0, above * (1 - q) + below * q));
      }
    }
  }
  addSlopes(features, width, height, planes, count);
  return { pose, width, height, features };
}

function addSlopes(
  features: Float32Array,
  width: number,
  height: number,
  planes: number,
  count: number,
): void {
  const tone = new Float32Array(width * height);
  for (let k = 0; k < tone.length; k++) {
    for (let plane = 0; plane < planes; plane++) tone[k] += features[k * count + plane];
  }
  for (let j = 0; j < height; j++) {
    const up = Math.max(0, j - 1) * width;
    const down = Math.min(height - 1, j + 1) * width;
    for (let i = 0; i < width; i++) {
      const at = (i + j * width) * count + planes;
      features[at] = tone[Math.min(width - 1, i + 1) + j * width] - tone[Math.max(0, i - 1) + j * width];
      features[at + 1] = tone[i + down] - tone[i + up];
    }
  }
}

/** Colours in units of their deviation from their means, all planes together; slopes in units of their own. */
function normalise(sheets: readonly Float32Array[], planes: number, count: number): void {
  const sums = new Float64Array(count);
  const squares = new Float64Array(count);
  const first = sheets[0];
  const samples = first.length / count;
  for (let k = 0; k < first.length; k += count) {
    for (let f = 0; f < count; f++) {
      sums[f] += first[k + f];
      squares[f] += first[k + f] ** 2;
    }
  }
  let colour = 1e-12;
  let slope = 1e-12;
  for (let f = 0; f < count; f++) {
    const variance = Math.max(0, squares[f] / samples - (sums[f] / samples) ** 2);
    if (f < planes) colour += variance;
    else slope += variance;
  }
  for (const features of sheets) {
    for (let k = 0; k < features.length; k += count) {
      for (let f = 0; f < planes; f++)
        features[k + f] = (features[k + f] - sums[f] / samples) / Math.sqrt(colour);
      for (let f = planes; f < count; f++) features[k + f] *= SLOPE_WEIGHT / Math.sqrt(slope);
    }
  }
}

function cellMeans({ width, height, features }: RawSheet, count: number): Pick<Sheet, 'means' | 'busy'> {
  const slopes = new Float32Array(width * height);
  for (let k = 0, at = count - 2; k < slopes.length; k++, at += count) {
    slopes[k] = Math.sqrt(features[at] ** 2 + features[at + 1] ** 2);
  }
  const busy = overCells(slopes, width, height, 1);
  let total = 0;
  for (const value of busy) total += value;
  const mean = total / busy.length || 1;
  for (let k = 0; k < busy.length; k++) busy[k] /= mean;
  return { means: overCells(features, width, height, count), busy };
}

/** Of each sample the means over the cell that begins there; at the far edges the last sample counts again. */
function overCells(values: Float32Array, width: number, height: number, count: number): Float32Array {
  const across = new Float32Array(values.length);
  const means = new Float32Array(values.length);
  const row = width * count;
  for (let s = 0; s < FINE; s++) {
    for (let j = 0; j < height; j++) {
      const last = (j + 1) * row;
      for (let to = j * row; to < last; to++) {
        const from = to + s * count;
        across[to] += values[from < last ? from : last - count + (to % count)];
      }
    }
  }
  for (let s = 0; s < FINE; s++) {
    for (let j = 0; j < height; j++) {
      const from = (Math.min(height - 1, j + s) - j) * row;
      for (let to = j * row; to < (j + 1) * row; to++) means[to] += across[to + from] / (FINE * FINE);
    }
  }
  return means;
}

function wholeCells(
  { width, height }: RawSheet,
  means: Float32Array,
  count: number,
): Pick<Sheet, 'cells' | 'cellsAcross'> {
  const cellsAcross = Math.floor(width / FINE);
  const cellsDown = Math.floor(height / FINE);
  const cells = new Float32Array(cellsAcross * cellsDown * count);
  for (let j = 0, to = 0; j < cellsDown; j++) {
    for (let i = 0; i < cellsAcross; i++, to += count) {
      const at = FINE * (i + j * width) * count;
      cells.set(means.subarray(at, at + count), to);
    }
  }
  return { cells, cellsAcross };
}
