import { type ClothPiece, cutCloth } from './cloth.ts';
import { FIRST_BYTE, type Kernel, type Places, SLACK, theKernel } from './kernel.ts';
import { cutEnds, type Knots, openKnots } from './knots.ts';
import type { LinenModel } from './model.ts';
import { type Axis, threadAt } from './raster.ts';
import { openRow, type SampleRow } from './row.ts';

/** Draws rows of samples of one piece of cloth. Valid until the next is opened. */
export interface RowPainter {
  readonly model: LinenModel;
  readonly piece: ClothPiece;
  readonly down: Axis;
  readonly kernel: Kernel;
  /** Filled before each row, in the memory of the kernel. */
  readonly knots: Knots;
  /** Holds each row from when it is drawn until the next is. */
  readonly row: SampleRow;
}

/** Opens a painter for samples `first ..` across and rows `top ..` down. */
export function openPainter(
  model: LinenModel,
  across: Axis,
  down: Axis,
  first: number,
  count: number,
  top: number,
  rows: number,
): RowPainter {
  const endMargin = model.warp.reach + 2;
  const pickMargin = model.weft.reach + 3;
  const firstEnd = threadAt(across, first) - endMargin;
  const lastEnd = threadAt(across, first + count - 1) + endMargin;
  const firstPick = threadAt(down, top) - pickMargin;
  const lastPick = threadAt(down, top + rows - 1) + pickMargin;
  const piece = cutCloth(model, firstEnd, lastEnd - firstEnd + 1, firstPick, lastPick - firstPick + 1);
  const kernel = theKernel();
  const { places, end } = layTables(kernel, model);
  const { ends, picks } = piece;
  const room = kernel.openRoom(
    end,
    MOST_PER_CROSSING * ends * picks + MOST_PER_END * ends + MOST_PER_SAMPLE * count,
  );
  const cloth = room.put(clothOf(piece));
  const knots = openKnots(ends, room.allot);
  const row = openRow(
    count,
    (kind, length) => room.allot(kind, length + OVERRUN).subarray(0, length) as never,
  );
  kernel.tell({
    ...places,
    ...cloth,
    ...knotPlaces(knots),
    ...rowPlaces(row),
    ...numbersOf(model, piece),
    first,
    count,
    acrossCount: across.count,
    acrossSpan: across.span,
    acrossScale: across.scale,
    downCount: down.count,
    downSpan: down.span,
    downScale: down.scale,
  });
  return { model, piece, down, kernel, knots, row };
}

/** Draws sample row `row` of the plane; what it shows is the painter's until the next. */
export function paintRow(
  { model, piece, down, kernel, knots, row: drawn }: RowPainter,
  row: number,
): SampleRow {
  cutEnds(model, piece, down, row, knots);
  kernel.draw(row);
  return drawn;
}

/** Bytes, rounded up. */
const MOST_PER_CROSSING = 32;
const MOST_PER_END = 64;
const MOST_PER_SAMPLE = 32;
/** Samples that a block may draw beyond the end of a row. */
const OVERRUN = 4;

/** Where the tables of a cloth lie in the memory of this thread's kernel, as long as no others have been laid over them. */
interface Laid {
  readonly turn: number;
  readonly places: Places;
  readonly end: number;
}

/** Holds no cloth: who asks is held only by others. */
const laidOf = new WeakMap<LinenModel, Laid>();
let lastTurn = 0;

/** Lays out the tables that all pieces of a cloth share, unless they lie there. */
function layTables(kernel: Kernel, model: LinenModel): Laid {
  const before = laidOf.get(model);
  if (before?.turn === lastTurn) return before;
  const tables = tablesOf(model);
  const bytes = Object.values(tables).reduce((sum, { byteLength }) => sum + byteLength + SLACK, 0);
  const room = kernel.openRoom(FIRST_BYTE, bytes);
  const places = room.put(tables);
  const laid = { turn: ++lastTurn, places, end: room.end() + SLACK };
  laidOf.set(model, laid);
  return laid;
}

function tablesOf({ warp, weft, ink }: LinenModel) {
  return {
    warpSection: pairsOf(warp.lit.surface, warp.lit.shadow),
    weftSection: pairsOf(weft.lit.surface, weft.lit.shadow),
    warpCourses: pairsOf(warp.lit.centre, warp.lit.narrow),
    weftCourses: pairsOf(weft.lit.centre, weft.lit.narrow),
    warpLight: warp.lit.light,
    weftLight: weft.lit.light,
    warpStreaks: warp.fibres.streaks,
    weftStreaks: weft.fibres.streaks,
    warpFray: warp.fibres.fray,
    weftFray: weft.fibres.fray,
    warpInk: ink?.warp ?? NOTHING,
    weftInk: ink?.weft ?? NOTHING,
  };
}

const NOTHING = new Float32Array(0);

/** Two lists as one of pairs, in double precision: what is looked up together lies together. */
function pairsOf(one: Float32Array, other: Float32Array): Float64Array {
  const pairs = new Float64Array(2 * one.length);
  for (let k = 0; k < one.length; k++) {
    pairs[2 * k] = one[k];
    pairs[2 * k + 1] = other[k];
  }
  return pairs;
}

function clothOf({ warpUp, floats, weft }: ClothPiece) {
  return {
    weftHalf: weft.half,
    weftTone: weft.tone,
    weftOffset: weft.offset,
    weftFibre: weft.fibre,
    warpUp,
    floatPull: floats.pull,
    floatMiddle: floats.toMiddle,
  };
}

function knotPlaces({ centre, half, tone, toInk, course, fibre, pick }: Knots): Places {
  return {
    knotCentre: centre.byteOffset,
    knotHalf: half.byteOffset,
    knotTone: tone.byteOffset,
    knotToInk: toInk.byteOffset,
    knotCourse: course.byteOffset,
    knotFibre: fibre.byteOffset,
    knotPick: pick.byteOffset,
  };
}

function rowPlaces({ shade, warp, weft, ink, fromX, fromY }: SampleRow): Places {
  return {
    shade: shade.byteOffset,
    warpShare: warp.byteOffset,
    weftShare: weft.byteOffset,
    inkLight: ink.byteOffset,
    fromX: fromX.byteOffset,
    fromY: fromY.byteOffset,
  };
}

function numbersOf({ gap, weft, ink }: LinenModel, { ends, firstEnd, firstPick }: ClothPiece): Places {
  return {
    ends,
    firstEnd,
    firstPick,
    gap,
    weftSamples: weft.fibres.samples,
    printed: ink ? 1 : 0,
    groundInk: ink?.ground ?? 0,
    warpAcross: ink?.warpAcross ?? 0,
    weftAcross: ink?.weftAcross ?? 0,
  };
}
