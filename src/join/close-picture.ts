import type { Samples } from '../colour/frame.ts';
import { shareBlank } from '../colour/samples.ts';
import { type Across, Canvas, type Rect } from './canvas.ts';
import type { ClosePlan, WayPlan } from './close-plan.ts';
import type { Corner } from './cut-search.ts';
import { joinStrips } from './join-strips.ts';
import type { LitPicture } from './lit-picture.ts';
import { turnedStrip } from './turned-strip.ts';

/** Where a cut runs, in px of the tile: x, y, x, y and so on. */
export type CutLine = readonly number[];

/** A picture that was made to close. */
export interface ClosedPicture {
  /** px across. */
  readonly width: number;
  /** px down. */
  readonly height: number;
  /** Straight RGBA as that of the picture, in memory that workers share. */
  readonly samples: Samples;
  /** Where the tile's upper left corner lies in the picture, px. */
  readonly from: { readonly x: number; readonly y: number };
  /** All that was worked on, in px of the tile; what lies in none of them is the picture, bit for bit. */
  readonly strips: readonly Rect[];
  readonly cuts: readonly CutLine[];
}

/** What is known while a picture is closed. */
interface Work {
  readonly canvas: Canvas;
  readonly strips: Rect[];
  readonly cuts: number[][];
}

/**
 * Makes a picture close over its layout: lays it over its own copies, cuts where that shows least, and evens
 * tone along the cuts. First the way in which copies stand straight beside one another, which makes a
 * cylinder of the picture; then round that cylinder, moved by the drop or brick offset. The picture's own samples stay
 * untouched.
 *
 * @param plan Of `planClose`, for this very picture.
 * @param onProgress Told 0..1 how far it is.
 */
export function closePicture(
  picture: LitPicture,
  plan: ClosePlan,
  onProgress: (done: number) => void = () => {},
): ClosedPicture {
  const { layout, ways, width, height } = plan;
  const work: Work = { canvas: new Canvas(picture), strips: [], cuts: [] };
  const sides = { x: picture.width, y: picture.height };
  const [first, second] = ways;
  close(work, first, { side: sides[first.way], along: sides[second.way], shift: 0, kind: 'open' });
  onProgress(0.4);
  const round = { side: sides[second.way], along: first.size };
  if (second.farOverlap === undefined) {
    const shift = (first.size * layout.numerator) / layout.denominator;
    close(work, second, { ...round, shift, kind: 'cyclic' });
  } else closeTurned(work, second, round);
  onProgress(0.9);
  const from = { x: 0, y: 0, [second.way]: (second.farOverlap === undefined ? 0 : second.overlap) / 2 };
  const samples = shareBlank(picture.samples, 4 * width * height);
  const tile = { ...from, width, height };
  work.canvas.read(tile, samples);
  onProgress(1);
  return {
    ...{ width, height, samples, from },
    strips: work.strips.map((strip) => inTile(strip, tile)).filter(({ width: w, height: h }) => w * h > 0),
    cuts: work.cuts.map((line) => line.map((value, k) => value - (k % 2 === 0 ? from.x : from.y))),
  };
}

/** A way in which a picture is closed, and what it has come to by then. */
interface Round {
  /** px of the picture this way, and the other. */
  readonly side: number;
  readonly along: number;
}

function close(
  work: Work,
  { way, overlap, size, growth }: WayPlan,
  { side, along, shift, kind }: Round & { readonly shift: number; readonly kind: 'open' | 'cyclic' },
): void {
  if (growth) grow(work, { way, overlap, growth, side, along, kind });
  const { canvas } = work;
  const before = canvas.readStrip({ way, first: size, across: overlap, along, shift });
  const after = canvas.readStrip({ way, first: 0, across: overlap, along });
  const joined = joinStrips(before, after, kind);
  lay(work, way, 0, joined);
}

interface Growing extends Round {
  readonly way: Across;
  readonly overlap: number;
  readonly growth: NonNullable<WayPlan['growth']>;
  readonly kind: 'open' | 'cyclic';
}

/** Lays a piece of the picture over its end, half of it beyond: the picture is then longer by `overlap`. */
function grow(work: Work, { way, overlap, growth, side, along, kind }: Growing): void {
  const { canvas } = work;
  const { first, shift } = growth;
  const end = canvas.readStrip({ way, first: side - overlap, across: overlap, along });
  const over = canvas.readStrip({ way, first, across: overlap, along, shift });
  const beyond = canvas.readStrip({ way, first: first + overlap, across: overlap, along, shift });
  lay(work, way, side - overlap, joinStrips(end, over, kind, beyond));
}

/** Both ends, each with its own turned copy. */
function closeTurned(
  work: Work,
  { way, overlap, farOverlap = overlap, growth }: WayPlan,
  round: Round,
): void {
  const { side, along } = round;
  if (growth) grow(work, { way, overlap, growth, ...round, kind: 'cyclic' });
  const end = growth ? side + overlap : side;
  const near = work.canvas.readStrip({ way, first: 0, across: overlap, along });
  lay(work, way, 0, joinStrips(turnedStrip(near), near, 'turned'));
  const far = work.canvas.readStrip({ way, first: end - farOverlap, across: farOverlap, along });
  lay(work, way, end - farOverlap, joinStrips(far, turnedStrip(far), 'turned'));
}

function lay(work: Work, way: Across, first: number, joined: ReturnType<typeof joinStrips>): void {
  work.canvas.lay({ way, first }, joined);
  const { across, along, cut } = joined;
  work.strips.push(
    way === 'x'
      ? { x: first, y: 0, width: across, height: along }
      : { x: 0, y: first, width: along, height: across },
  );
  work.cuts.push(lineOf(cut.corners, way, first));
}

function lineOf(corners: readonly Corner[], way: Across, first: number): number[] {
  return corners.flatMap(({ i, row }) => (way === 'x' ? [first + i, row] : [row, first + i]));
}

function inTile({ x, y, width, height }: Rect, tile: Rect): Rect {
  const [left, top] = [Math.max(x, tile.x), Math.max(y, tile.y)];
  const right = Math.min(x + width, tile.x + tile.width);
  const bottom = Math.min(y + height, tile.y + tile.height);
  return {
    ...{ x: left - tile.x, y: top - tile.y },
    ...{ width: Math.max(0, right - left), height: Math.max(0, bottom - top) },
  };
}
