import { cellIndex, type FieldShape } from '../field/periodic.ts';
import { smoothstep } from '../field/smoothstep.ts';
import { EDGE_STEP, type Stroke, type Strokes } from './strokes.ts';
import type { WashValues } from './wash-values.ts';

/** What strokes left on each cell, before the wash wandered. */
export interface Film {
  /** Paint of the strokes, weighed by how fully they cover. */
  readonly paint: Float32Array;
  /** How fully they cover, all together. */
  readonly cover: Float32Array;
  /** Share that no stroke covers. */
  readonly bare: Float32Array;
  /** What gathered along edges that dried: total, in shares of the paint. */
  readonly rim: Float32Array;
  /** How far strokes that lie over one another had dried, weighed by cover. */
  readonly dry: Float32Array;
  /** How starved the brush was, weighed by cover. */
  readonly starved: Float32Array;
}

/** How far a wet edge runs, as a share of the brush, and at most, mm; and how far a dry one. */
const WET_RUN = 0.3;
const MOST_RUN = 16;
const DRY_RUN = 0.22;

/** Rims: a line, its shoulder and its slope inward, mm; and how much each holds. */
const LINE = { width: 0.42, share: 0.62 };
const SHOULDER = { width: 2, share: 0.3 };
const SLOPE = { width: 8, share: 0.16 };

/**
 * Lays all strokes on cells. What they come to depends on no order: on a repeat there is no first stroke.
 *
 * @param fray How far edges stray in the paper, mm per cell.
 */
export function layFilm(shape: FieldShape, strokes: Strokes, values: WashValues, fray: Float32Array): Film {
  const cells = shape.width * shape.height;
  const plane = (value = 0) => new Float32Array(cells).fill(value);
  const film: Film = {
    paint: plane(),
    cover: plane(),
    bare: plane(1),
    rim: plane(),
    dry: plane(),
    starved: plane(),
  };
  for (const stroke of strokes.list) layStroke(film, shape, strokes, stroke, values, fray);
  return film;
}

function layStroke(
  film: Film,
  shape: FieldShape,
  { alongX, alongY, reach }: Strokes,
  stroke: Stroke,
  values: WashValues,
  fray: Float32Array,
): void {
  const { mmPerCellX, mmPerCellY, width } = shape;
  const brush = reach / 0.9;
  const run = Math.min(WET_RUN * brush, MOST_RUN);
  const farU = stroke.half + 0.4 * brush;
  const farV = reach + run;
  const farX = Math.abs(alongX) * farU + Math.abs(alongY) * farV;
  const farY = Math.abs(alongY) * farU + Math.abs(alongX) * farV;
  const [left, right] = [
    Math.floor((stroke.x - farX) / mmPerCellX),
    Math.ceil((stroke.x + farX) / mmPerCellX),
  ];
  const [top, bottom] = [
    Math.floor((stroke.y - farY) / mmPerCellY),
    Math.ceil((stroke.y + farY) / mmPerCellY),
  ];
  // The lower edge is the one that gravity draws the bead to; strokes that stand upright have none.
  const fall = alongX;
  const beadWidth = Math.min(0.2 * brush, 9);
  const last = stroke.upper.length - 2;
  for (let j = top; j <= bottom; j++) {
    const dy = (j + 0.5) * mmPerCellY - stroke.y;
    let cell = -1;
    for (let i = left; i <= right; i++) {
      const dx = (i + 0.5) * mmPerCellX - stroke.x;
      const u = dx * alongX + dy * alongY;
      const v = dy * alongX - dx * alongY;
      // Kept from cell to cell while a row of the box lasts.
      cell = cell < 0 || (cell + 1) % width === 0 ? cellIndex(shape, i, j) : cell + 1;
      if (u < -farU || u > farU || v < -farV || v > farV) continue;
      const place = Math.min(last, Math.max(0, (u + stroke.half) / EDGE_STEP));
      const k = place | 0;
      const part = place - k;
      const at = (line: Float32Array) => line[k] + (line[k + 1] - line[k]) * part;
      const stray = fray[cell];
      const upperDry = at(stroke.upperDry);
      const lowerDry = at(stroke.lowerDry);
      const above = v - at(stroke.upper) + stray * (0.3 + upperDry);
      const below = at(stroke.lower) - v + stray * (0.3 + lowerDry);
      const end = stroke.half - Math.abs(u) + 2 * stray + 0.12 * brush * (0.5 - ((2 * v) / brush) ** 2);
      const upperRun = run + (DRY_RUN - run) * Math.sqrt(upperDry);
      const lowerRun = run + (DRY_RUN - run) * Math.sqrt(lowerDry);
      const cover =
        smoothstep(0.5 + above / (2 * upperRun)) *
        smoothstep(0.5 + below / (2 * lowerRun)) *
        smoothstep(0.5 + end / (0.55 * brush));
      if (cover <= 0.002) continue;
      const graded = 1 - values.grading * (0.5 + (0.5 * u) / stroke.half - 0.5);
      const bead =
        values.bead *
        0.3 *
        (fall > 0
          ? fall * Math.exp(-Math.max(0, below) / beadWidth)
          : -fall * Math.exp(-Math.max(0, above) / beadWidth));
      const own = stroke.level * (graded + bead);
      film.paint[cell] += cover * own;
      film.cover[cell] += cover;
      film.bare[cell] *= 1 - cover;
      film.dry[cell] += cover * Math.max(upperDry * near(above), lowerDry * near(below));
      film.starved[cell] += cover * at(stroke.starved);
      film.rim[cell] += cover * (0.75 * upperDry * rimAt(above) + lowerDry * rimAt(below));
    }
  }
}

/** How much an edge still tells, so far within. */
function near(depth: number): number {
  return depth < 25 ? 1 - smoothstep(depth / 25) : 0;
}

const RIM_STEPS = 16;
const RIM_REACH = 40;
const RIMS = Float32Array.from({ length: RIM_STEPS * RIM_REACH + 2 }, (_, k) => {
  const depth = k / RIM_STEPS;
  const of = ({ width, share }: typeof LINE) => share * Math.exp(-depth / width);
  return of(LINE) + of(SHOULDER) + of(SLOPE);
});

/** What gathers `depth` mm within a dried edge; nothing without. */
function rimAt(depth: number): number {
  if (depth < -0.1 || depth >= RIM_REACH) return 0;
  return RIMS[(Math.max(0, depth) * RIM_STEPS) | 0];
}
