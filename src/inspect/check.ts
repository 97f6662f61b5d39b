import type { Layout } from '../repeat/layout.ts';
import type { Figure } from './figure.ts';
import { CLEAR, type Grade, gradeOf, worstGrade } from './grade.ts';
import { lookQuickly } from './inside.ts';
import { type InspectedPicture, requirePicture } from './inspected-picture.ts';
import { hasRoom, LEAST_DEPTH, Level, type LineChoice, SCALES } from './level.ts';
import {
  type EdgeReport,
  type Finding,
  type Place,
  type SeamReport,
  type Twins,
  worstFinding,
} from './report.ts';
import { roll } from './roll.ts';
import { type Axis, insideLine, type Seam, seamsOf } from './seam.ts';
import { openSource, type Source } from './strip.ts';
import { summariseEdge, summariseReport } from './words.ts';

export interface CheckOptions {
  /** Size of a pixel, so that places are also given in mm. */
  readonly mmPerPixelX?: number;
  readonly mmPerPixelY?: number;
  /**
   * Lines inside that are of the seams' own kind, px: the mirror lines of a tile that was unfolded. A
   * design may have more edges along them than anywhere else.
   */
  readonly kinColumns?: readonly number[];
  readonly kinRows?: readonly number[];
}

/**
 * Whether a picture closes over a layout.
 *
 * The idea: in a picture that closes, the line where it meets its own copy is a line like any
 * other. So the same figures are taken at that line and at up to some 190 lines inside, and the picture is open
 * where a figure lies so far above all of those that a line like them would hardly show it
 * (`limitOf`). What the inside shows, grain, outlines, stripes, the block steps of JPEG, is thus never
 * held against the seam.
 *
 * The figures, each in cells of 1, 4, 16 and 64 px (where the picture has room) and over stretches of
 * 16, 64, 256, ... cells and the whole edge (`poolsOf`):
 * - the jump and the kink in slope between what the two sides lead one to expect (`measureLine`), by
 *   a predictor learnt from the inside (`learn`);
 * - clean steps, sharper than the picture draws its own outlines;
 * - outlines that do not go on beyond the line (`contoursOver`);
 * - lines that are copies of each other where no two lines inside are (`Twins`).
 *
 * At a mirror line the tone cannot jump: there the kink alone is held against the inside, and outlines
 * that arrive aslant and turn back.
 *
 * A figure little above what passes is a doubt, and looked at again (`lookAgain`, `gradeOf`): so there are
 * three grades. `look` leaves it to a person, with the place; it counts as closed.
 *
 * Error rates on the project's own test set (`npm run seam-rates`: 41 kinds of seamless pictures of
 * 336 x 264 px over straight, drop:1/2, mirror-xy and turn), in pictures of 100. Closed ones called open: 0.6 as
 * drawn, 1.1 as JPEG of quality 60 to 92, and 1.3 and 1.4 left to look at (over turn 5).
 * Open ones called closed, where edges move: a crop by an eighth 2 (both ways) to 11 (one way), a motif cut
 * over a twentieth / tenth of the edge 12 / 6, uneven light of 6 levels 10, of 12 levels in a JPEG 9, a
 * half-drop tile taken as straight 11 and the reverse 17, crops by 8 / 4 / 2 px 9 / 19 / 37, a last row
 * doubled 33, a first column once more 56; up to 9 more are left to look at. Turned edges: crops 12 to 31.
 * At mirror lines a crop leaves no more than a crease, and 50 to 79 are not found: the summary says so.
 *
 * What no figure of a line can tell: a cut along stripes, checks or threads that leaves one of them
 * narrower is a picture as good as the first; and in white noise no cut can be seen by anybody.
 *
 * @param layout  Reflected layouts show the picture, which is one tile, in mirrors or turned.
 * @throws Fault (usage) where a drop or brick offset misses whole pixels; (input) where the samples
 *         do not fit the size.
 */
export function checkSeams(
  picture: InspectedPicture,
  layout: Layout,
  options: CheckOptions = {},
): SeamReport {
  const edges = AXES.flatMap((axis) => checkEdges(picture, layout, axis, options));
  return reportOfEdges(picture, layout, edges);
}

/** Both, in the order in which their edges stand in a report. */
export const AXES: readonly Axis[] = ['column', 'row'];

/** The half of `checkSeams` that looks at the edges of one direction; the two may run side by side. */
export function checkEdges(
  picture: InspectedPicture,
  layout: Layout,
  axis: Axis,
  options: CheckOptions = {},
): EdgeReport[] {
  requirePicture(picture);
  const seams = seamsOf(layout, picture.width, picture.height);
  const ofAxis = seams.filter((seam) => seam.axis === axis);
  return judgeAxis(openSource(picture), axis, ofAxis, options);
}

/** What `checkSeams` says, from what `checkEdges` found of both directions, in the order of `AXES`. */
export function reportOfEdges(
  { width, height }: Pick<InspectedPicture, 'width' | 'height'>,
  layout: Layout,
  edges: readonly EdgeReport[],
): SeamReport {
  const findings = edges.map(worstFinding).filter((finding) => finding !== undefined);
  const report = {
    ...verdictOf(worstGrade(edges.map(({ grade }) => grade))),
    layout,
    width,
    height,
    edges,
    worst: findings.sort((a, b) => b.excess - a.excess)[0],
  };
  return { ...report, summary: summariseReport(report) };
}

function judgeAxis(source: Source, axis: Axis, seams: readonly Seam[], options: CheckOptions): EdgeReport[] {
  const depth = axis === 'column' ? source.width : source.height;
  if (depth < LEAST_DEPTH) return seams.map(unjudged);
  const turned = seams.some(({ how }) => how === 'turned');
  const kin = (axis === 'column' ? options.kinColumns : options.kinRows) ?? [];
  const levels = levelsOf(source, axis, { turned, kin });
  return seams.map((seam) => judge(seam, levels, source, options));
}

/** What the lines inside show, at every scale. */
export function levelsOf(source: Source, axis: Axis, lines: Omit<LineChoice, 'looked'>): Level[] {
  const [depth, length] = axis === 'column' ? [source.width, source.height] : [source.height, source.width];
  const choice = { ...lines, looked: lookQuickly(source, axis) };
  return SCALES.filter((scale) => hasRoom(scale, depth, length)).map(
    (scale) => new Level(source, axis, scale, choice),
  );
}

function verdictOf(grade: Grade): { readonly grade: Grade; readonly closes: boolean } {
  return { grade, closes: grade !== 'open' };
}

function unjudged({ edge, meets, how }: Seam): EdgeReport {
  const report = { edge, meets, how, ...verdictOf('closes'), judged: false };
  return { ...report, summary: summariseEdge(report) };
}

/** Holds one seam against the lines inside. */
export function judge(
  seam: Seam,
  levels: readonly Level[],
  source: Source,
  options: CheckOptions,
): EdgeReport {
  const figures = levels.flatMap((level) => level.weigh(seam));
  const worstOf = (...measures: Figure['measure'][]) =>
    worst(
      figures.filter(({ measure }) => measures.includes(measure)),
      seam,
      source,
      options,
    );
  const found = {
    jump: seam.how === 'mirrored' ? undefined : worstOf('jump', 'step'),
    kink: worstOf('kink', 'fold'),
    contour: worstOf('contour'),
    twins: seam.how === 'moved' ? twinsAt(seam, levels[0], source) : undefined,
  };
  const excess = Math.max(0, ...figures.map(shareOf));
  const own = excess > 1 ? lookAgain(seam, source, excess) : 0;
  const grade = found.twins ? 'open' : gradeOf(excess, own, seam.how);
  const { edge, meets, how } = seam;
  const report = { edge, meets, how, ...verdictOf(grade), judged: true, ...found };
  return { ...report, summary: summariseEdge(report) };
}

/** The picture is rolled by so many parts of its way across a seam. */
const ROLLS = 8;
/** px. Above this the copies and the time would be out of proportion: the first look stands. */
const MOST_ROLLED = 16e6;

/**
 * A second look at a doubtful seam: the picture rolled over its lattice by eighths, and the largest share
 * of what passes where its edges then are. What does not move with the seam is the picture's own. At
 * mirror lines and where an edge turns upon itself there is nothing to roll: 0.
 */
function lookAgain(seam: Seam, source: Source, excess: number): number {
  const { axis, how } = seam;
  const { width, height } = source;
  if (how !== 'moved' || excess > CLEAR || width * height > MOST_ROLLED) return 0;
  const depth = axis === 'column' ? width : height;
  let own = 0;
  for (let part = 1; part < ROLLS && own <= 1; part++) {
    const rolled = openSource(roll(source, seam, Math.round((depth * part) / ROLLS)));
    const levels = levelsOf(rolled, axis, { turned: false, kin: [] });
    own = Math.max(own, ...levels.flatMap((level) => level.weigh(seam)).map(shareOf));
  }
  return own;
}

/**
 * Below this nobody sees it, whatever the inside shows: in colour differences, half of one along a
 * whole edge and 2.4 in a single pixel. The eye sums along a line, so the part that falls goes by the
 * root of the length in px.
 */
function leastSeen({ measure, length }: Figure): number {
  if (measure === 'contour') return 0.1;
  const seen = 0.4 + 2 / Math.sqrt(length);
  return measure === 'step' ? 2 * seen : seen;
}

function believed(figure: Figure): number {
  return Math.max(figure.limit, leastSeen(figure));
}

/** How much of what passes a figure is: above 1 it does not. */
function shareOf(figure: Figure): number {
  return figure.value / believed(figure);
}

function worst(
  figures: readonly Figure[],
  seam: Seam,
  source: Source,
  options: CheckOptions,
): Finding | undefined {
  let found: Finding | undefined;
  for (const figure of figures) {
    const limit = believed(figure);
    const excess = shareOf(figure);
    if (found && found.excess >= excess) continue;
    const { value, inside, scale } = figure;
    found = {
      value,
      inside,
      limit,
      excess,
      times: value === 0 ? 0 : value / inside,
      place: placeOf(figure, seam, source, options),
      scale,
      statistic: `${figure.measure} ${figure.pool}`,
    };
  }
  return found;
}

function placeOf({ start, length }: Figure, { edge }: Seam, source: Source, options: CheckOptions): Place {
  const { width, height } = source;
  const middle = start + length / 2;
  const x = edge === 'left' ? 0 : edge === 'right' ? width : middle;
  const y = edge === 'top' ? 0 : edge === 'bottom' ? height : middle;
  const place = { edge, from: start, to: start + length, x, y };
  const { mmPerPixelX, mmPerPixelY = mmPerPixelX } = options;
  if (mmPerPixelX === undefined || mmPerPixelY === undefined) return place;
  const alongMm = edge === 'left' || edge === 'right' ? mmPerPixelY : mmPerPixelX;
  return { ...place, mm: { x: x * mmPerPixelX, y: y * mmPerPixelY, length: length * alongMm } };
}

/** Neighbours inside must differ by this root mean square, in L*, before copies stand out. */
const LEAST_DIFFERENCE = 0.25;

function twinsAt(seam: Seam, level: Level, { width, height }: Source): Twins | undefined {
  const last = (seam.axis === 'column' ? width : height) - 1;
  const lines = [
    { of: 'edge', line: seam },
    { of: 'neighbour', line: insideLine(seam.axis, last) },
    { of: 'neighbour', line: insideLine(seam.axis, 1) },
  ] as const;
  for (const { of, line } of lines) {
    const { value, inside, limit } = level.likeness(line);
    if (inside >= LEAST_DIFFERENCE && value < Math.min(limit, inside / 2))
      return { of, value, inside, limit };
  }
  return undefined;
}
