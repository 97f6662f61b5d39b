import { CONTOUR_TAPS } from './contour.ts';
import type { Figure } from './figure.ts';
import { learn, type Sides, type Weights } from './foretell.ts';
import { cellLinesInside, cellLinesStandingOut, linesInside, type QuickLook } from './inside.ts';
import { LEAST_RISE, type Limit, limitOf, lowLimitOf } from './limit.ts';
import { type MeasureName, measureLine } from './measure.ts';
import { Outlines } from './outlines.ts';
import { type Pool, poolLine, poolsOf } from './pool.ts';
import { Room } from './room.ts';
import { type Axis, insideLine, type Line, type Seam } from './seam.ts';
import { channelCount, readStrip, readStrips, type Source } from './strip.ts';

/** How alike the pixels on the two sides of a line are. */
export interface Likeness {
  /** Root mean square difference of neighbours over the line. */
  readonly value: number;
  /** The least inside, and below what they are copies. */
  readonly inside: number;
  readonly limit: number;
}

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

/** The measures of a scale. Steps are looked for in single pixels: in cells any outline is one. */
function measuresOf(how: Seam['how'], scale: number): readonly MeasureName[] {
  if (how === 'mirrored') return ['fold'];
  return scale === 1 ? ['jump', 'step', 'kink'] : ['jump', 'kink'];
}

/**
 * Jumps and kinks of moved seams are gathered at single places and over the whole line. Over stretches
 * a soft outline that lies along the line would count; there the clean step tells.
 */
function poolsFor(measure: MeasureName, count: number): readonly Pool[] {
  return poolsOf(count, measure === 'step' || measure === 'fold');
}

/** What is known of the lines besides the picture. */
export interface LineChoice {
  /** Whether the seams are turned upon themselves: the second half then repeats the first. */
  readonly turned: boolean;
  /** Lines inside of the seams' own kind, px: always looked at. */
  readonly kin: readonly number[];
  readonly looked: QuickLook;
}

/** A picture's lines of one direction, seen in cells of one size. */
export class Level {
  readonly scale: number;
  private readonly source: Source;
  private readonly axis: Axis;
  private readonly taps: number;
  /** Part of the lines that is looked at: the first of it, and how long. */
  private readonly length: number;
  private readonly positions: readonly number[];
  /** Borders of stripes, if any: in single pixels they are among the positions. */
  private readonly standingOut: readonly number[];
  private readonly distinct: number;
  private readonly inside: readonly Sides[];
  private readonly weights: readonly Weights[];
  private readonly limits = new Map<MeasureName, readonly Limit[]>();
  private readonly outlines?: Outlines;
  private readonly room = new Room();

  constructor(source: Source, axis: Axis, scale: number, { turned, kin, looked }: LineChoice) {
    const [depth, whole] = axis === 'column' ? [source.width, source.height] : [source.height, source.width];
    this.scale = scale;
    this.source = source;
    this.axis = axis;
    this.taps = scale === 1 ? Math.min(CONTOUR_TAPS, depth >> 1) : CELL_TAPS;
    this.length = turned ? Math.ceil(whole / 2) : whole;
    const margin = this.taps * scale;
    const spread =
      scale === 1 ? linesInside(source, axis, depth, margin, looked) : cellLinesInside(depth, margin, scale);
    const held = kin.filter((position) => position >= margin && position <= depth - margin);
    this.positions = [...new Set([...spread, ...held])].sort((a, b) => a - b);
    this.standingOut = scale === 1 ? [] : cellLinesStandingOut(looked, depth, margin, scale);
    this.distinct = (depth - 2 * margin) / scale;
    this.inside = this.readInside(this.positions);
    this.weights = this.learnWeights();
    if (scale === 1) this.outlines = new Outlines(this.inside, this.positions, this.distinct);
  }

  /** The figures of a seam. */
  weigh(seam: Seam): Figure[] {
    const { scale } = this;
    const [sides] = this.read([seam], () => 0);
    const names = measuresOf(seam.how, scale);
    const measured = measureLine(sides, this.weights, names);
    const figures = names.flatMap((measure) => {
      const pools = poolsFor(measure, sides.before.count);
      const { values, starts } = poolLine(measured.get(measure)!, pools, this.room);
      return this.limitsOf(measure, names).map((limit, k) => ({
        ...limit,
        measure,
        pool: pools[k].name,
        value: values[k],
        start: starts[k] * scale,
        length: pools[k].window * scale,
        scale,
      }));
    });
    return this.outlines
      ? [...figures, this.outlines.weigh(seam, sides)]
      : this.besideBorders(figures, names);
  }

  /**
   * A figure that the lines spread evenly do not explain is held against those that stand out: a seam that shows no
   * more than a border inside may be one. They are no part of the lot, whose limit lies well above its largest.
   */
  private besideBorders(figures: readonly Figure[], names: readonly MeasureName[]): Figure[] {
    const isExplained = figures.every(({ value, limit }) => value <= limit);
    if (isExplained || this.standingOut.length === 0) return [...figures];
    const pooled = this.poolLines(this.readInside(this.standingOut), names);
    const borders = names.flatMap((name) => columnsOf(pooled, name)).map((values) => Math.max(0, ...values));
    return figures.map((figure, k) => {
      const limit = LEAST_RISE * borders[k];
      const isBorder = figure.value > figure.limit && figure.value <= limit;
      return isBorder ? { ...figure, limit, inside: Math.max(figure.inside, borders[k]) } : figure;
    });
  }

  /** How alike neighbours over a line are; in single pixels. */
  likeness({ before, after }: Line): Likeness {
    const inside = this.inside.map(differenceOver);
    const { source, axis } = this;
    const sides = {
      before: readStrip(source, axis, before, 1, 1),
      after: readStrip(source, axis, after, 1, 1),
    };
    return {
      value: differenceOver(sides),
      inside: Math.min(...inside),
      limit: lowLimitOf(inside, this.distinct),
    };
  }

  /** Half lines inside are taken now from the one end, now from the other. */
  private readInside(positions: readonly number[]): Sides[] {
    const { axis, length, source } = this;
    const whole = axis === 'column' ? source.height : source.width;
    return this.read(
      positions.map((position) => insideLine(axis, position)),
      (k) => (k % 2 === 1 ? whole - length : 0),
    );
  }

  private read(lines: readonly Line[], from: (k: number) => number): Sides[] {
    const { source, axis, scale, taps, length } = this;
    const sides = lines.flatMap(({ before, after }, k) => [
      { side: before, from: from(k) },
      { side: after, from: from(k) },
    ]);
    const strips = readStrips(source, axis, sides, scale, taps, length);
    return lines.map((_, k) => ({ before: strips[2 * k], after: strips[2 * k + 1] }));
  }

  /** One set of weights for L* (and opacity), one for both colour channels. */
  private learnWeights(): Weights[] {
    const { inside, scale, source } = this;
    const lightness = learn(inside, [0]);
    const colour = scale > 1 ? learn(inside, [1, 2]) : lightness;
    return Array.from({ length: channelCount(source, scale) }, (_, channel) =>
      scale > 1 && (channel === 1 || channel === 2) ? colour : lightness,
    );
  }

  /** The limits of a measure's figures; those of all `names` are found in one go. */
  private limitsOf(measure: MeasureName, names: readonly MeasureName[]): readonly Limit[] {
    if (!this.limits.has(measure)) {
      const pooled = this.poolLines(this.inside, names);
      for (const name of names)
        this.limits.set(
          name,
          columnsOf(pooled, name).map((values) => limitOf(values, this.positions, this.distinct)),
        );
    }
    return this.limits.get(measure)!;
  }

  /** Of each line the value of every pool of each measure; what was measured is given up line by line. */
  private poolLines(lines: readonly Sides[], names: readonly MeasureName[]): PooledLine[] {
    return lines.map((sides) => {
      const measured = measureLine(sides, this.weights, names);
      return new Map(
        names.map((name) => {
          const pools = poolsFor(name, sides.before.count);
          return [name, poolLine(measured.get(name)!, pools, this.room).values];
        }),
      );
    });
  }
}

type PooledLine = ReadonlyMap<MeasureName, Float64Array>;

/** Of every pool of a measure its value at each line. */
function columnsOf(lines: readonly PooledLine[], name: MeasureName): number[][] {
  const rows = lines.map((line) => line.get(name)!);
  return Array.from(rows[0] ?? [], (_, pool) => rows.map((values) => values[pool]));
}

function differenceOver({ before, after }: Sides): number {
  let sum = 0;
  before.channels.forEach((samples, channel) => {
    const beyond = after.channels[channel];
    for (let place = 0; place < before.count; place++) {
      sum += (samples[place * before.taps] - beyond[place * after.taps]) ** 2;
    }
  });
  return Math.sqrt(sum / before.count);
}
