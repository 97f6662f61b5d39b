import { CONTOUR_TAPS, contoursOver } from './contour.ts';
import { learn, type Sides, type Weights } from './foretell.ts';
import { cellLinesInside, linesInside } from './inside.ts';
import { type Limit, limitOf, lowLimitOf } from './limit.ts';
import { type MeasureName, measureLine } from './measure.ts';
import { type Pool, poolLine, poolsOf } from './pool.ts';
import { type Axis, insideLine, type Line, type Seam } from './seam.ts';
import { channelCount, readStrip, type Source } from './strip.ts';

/** What one figure is about. */
export interface Gauge {
  readonly measure: MeasureName | 'contour';
  readonly pool: Pool;
}

/** A figure of a seam beside those inside. */
export interface Figure extends Limit, Gauge {
  readonly value: number;
  /** px along the line. */
  readonly start: number;
  readonly length: number;
  /** Side of the cells it was measured in, px. */
  readonly scale: number;
}

/** How pixels on the two sides of a line are alike. */
export interface Likeness {
  /** Root mean square difference of neighbours over the line. */
  readonly value: number;
  /** The least inside, and below what they are copies. */
  readonly inside: number;
  readonly limit: number;
}

/** A picture's lines of one direction, seen in cells of one size. */
export interface Level {
  readonly axis: Axis;
  readonly scale: number;
  /** The figures of a seam. */
  weigh(seam: Seam): Figure[];
  /** How alike the two sides of a line are; only in single pixels. */
  likeness?(line: Line): Likeness;
}

const PIXEL_TAPS = CONTOUR_TAPS;
const CELL_TAPS = 3;
/** Cells of so many px; the larger ones only where the picture has room. */
export const SCALES = [1, 4, 16, 64];
/** A line inside must have its cells on both sides within the picture: the margin that no line is seen in. */
const LARGEST_MARGIN = 1 / 20;
const FEWEST_CELLS = 16;
/** Fewer columns (rows) than this show no inside to hold a seam against. */
export const LEAST_DEPTH = 8;

/** Whether lines of this scale can be judged in a picture of `depth` columns (rows), `length` px long. */
export function hasRoom(scale: number, depth: number, length: number): boolean {
  if (scale === 1) return depth >= LEAST_DEPTH;
  return CELL_TAPS * scale <= depth * LARGEST_MARGIN && Math.floor(length / scale) >= FEWEST_CELLS;
}

/** Looks at the inside of a picture at one scale. */
export function openLevel(source: Source, axis: Axis, scale: number, seams: readonly Seam[]): Level {
  const depth = axis === 'column' ? source.width : source.height;
  const taps = scale === 1 ? Math.min(PIXEL_TAPS, depth >> 1) : CELL_TAPS;
  const margin = taps * scale;
  const positions =
    scale === 1 ? linesInside(source, axis, depth, margin) : cellLinesInside(depth, margin, scale);
  const read = (line: Line): Sides => ({
    before: readStrip(source, axis, line.before, scale, taps),
    after: readStrip(source, axis, line.after, scale, taps),
  });
  const inside = positions.map((position) => read(insideLine(axis, position)));
  const weights = weightsOf(source, scale, inside);
  const distinct = (depth - 2 * margin) / scale;
  const insideFigures = (names: readonly MeasureName[]) => {
    const gauges = gaugesOf(names, inside[0].before.count);
    const rows = inside.map((sides) => gaugeLine(sides, weights, names, gauges.length));
    const limits = gauges.map((_, k) =>
      limitOf(
        rows.map(({ values }) => values[k]),
        positions,
        distinct,
      ),
    );
    return { names, gauges, limits };
  };
  const forMoved = seams.some(({ how }) => how !== 'mirrored')
    ? insideFigures(scale === 1 ? ['jump', 'step', 'kink'] : ['jump', 'kink'])
    : undefined;
  const forMirrored = seams.some(({ how }) => how === 'mirrored') ? insideFigures(['fold']) : undefined;
  const outlines = scale === 1 ? inside.map(contoursOver) : [];
  const alike = scale === 1 ? inside.map(difference) : [];
  return {
    axis,
    scale,
    weigh(seam) {
      const { names, gauges, limits } = seam.how === 'mirrored' ? forMirrored! : forMoved!;
      const sides = read(seam);
      const { values, starts } = gaugeLine(sides, weights, names, gauges.length);
      const figures = gauges.map((gauge, k) => ({
        ...gauge,
        ...limits[k],
        value: values[k],
        start: starts[k] * scale,
        length: gauge.pool.window * scale,
        scale,
      }));
      return scale === 1 ? [...figures, contourFigure(sides, outlines, positions, distinct)] : figures;
    },
    likeness:
      scale > 1
        ? undefined
        : (line) => ({
            value: difference({
              before: readStrip(source, axis, line.before, 1, 1),
              after: readStrip(source, axis, line.after, 1, 1),
            }),
            inside: Math.min(...alike),
            limit: lowLimitOf(alike, distinct),
          }),
  };
}

/** One set of weights for L* (and opacity), one for both colour channels. */
function weightsOf(source: Source, scale: number, inside: readonly Sides[]): Weights[] {
  const lightness = learn(inside, [0]);
  const colour = scale > 1 ? learn(inside, [1, 2]) : lightness;
  return Array.from({ length: channelCount(source, scale) }, (_, channel) =>
    scale > 1 && (channel === 1 || channel === 2) ? colour : lightness,
  );
}

function gaugesOf(names: readonly MeasureName[], count: number): Gauge[] {
  const pools = poolsOf(count);
  return names.flatMap((measure) => pools.map((pool) => ({ measure, pool })));
}

function gaugeLine(sides: Sides, weights: readonly Weights[], names: readonly MeasureName[], gauges: number) {
  const pools = poolsOf(sides.before.count);
  const values = new Float64Array(gauges);
  const starts = new Int32Array(gauges);
  const measured = measureLine(sides, weights, names);
  names.forEach((name, k) => {
    poolLine(measured.get(name)!, pools, k * pools.length, values, starts);
  });
  return { values, starts };
}

/** Lines that few outlines cross are pulled towards none broken: by this share of the usual weight. */
const USUAL_SHARE = 0.3;

function contourFigure(
  sides: Sides,
  outlines: readonly { broken: number; weight: number }[],
  positions: readonly number[],
  distinct: number,
): Figure {
  const weights = Float64Array.from(outlines, ({ weight }) => weight).sort();
  const usual = USUAL_SHARE * weights[weights.length >> 1] + 20;
  const shareOf = ({ broken, weight }: { broken: number; weight: number }) => broken / (weight + usual);
  const window = sides.before.count;
  return {
    measure: 'contour',
    pool: { name: 'mean', window },
    ...limitOf(outlines.map(shareOf), positions, distinct),
    value: shareOf(contoursOver(sides)),
    start: 0,
    length: window,
    scale: 1,
  };
}

function difference({ before, after }: Sides): number {
  const { channels, count, taps } = before;
  let sum = 0;
  channels.forEach((samples, channel) => {
    const beyond = after.channels[channel];
    for (let at = 0; at < count * taps; at += taps) sum += (samples[at] - beyond[at]) ** 2;
  });
  return Math.sqrt(sum / count);
}
