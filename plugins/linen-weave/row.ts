import { type ClothPiece, cutCloth } from './cloth.ts';
import { FIBRE_BANDS } from './fibre.ts';
import { cutEnds, type Knots, openKnots } from './knots.ts';
import { ALONG_STEPS } from './light.ts';
import type { LinenModel } from './model.ts';
import { type Axis, threadAt } from './raster.ts';
import { SECTION_CENTRE, SECTION_STEPS, STEPS_PER_UNIT } from './section.ts';

/** What one row of samples shows. */
export interface SampleRow {
  readonly shade: Float32Array;
  /** The share of each sample that is warp, and weft. */
  readonly warp: Float32Array;
  readonly weft: Float32Array;
  /** Of a printed cloth: the light that its ink returns (see `ink.ts`). */
  readonly ink: Float32Array;
  /** And mm across and down to where that ink comes from, times the share that is yarn. */
  readonly fromX: Float32Array;
  readonly fromY: Float32Array;
}

export function openRow(samples: number): SampleRow {
  return {
    shade: new Float32Array(samples),
    warp: new Float32Array(samples),
    weft: new Float32Array(samples),
    ink: new Float32Array(samples),
    fromX: new Float32Array(samples),
    fromY: new Float32Array(samples),
  };
}

/** How much more ink one fibre takes than the next where the ink runs out, by how much more light it returns. */
const FIBRES = 3.5;

/** What a cloth that is not printed has for tables of ink. */
const NO_INK = new Float32Array(0);

/** mm of height over which the upper of two touching yarns gives way to the other. */
const CONTACT = 0.05;

/** How much more the light between the threads varies than that on them: loose fibres cross the gaps. */
const HAIR = 1.3;
const BARE = 0.6;

/** What is left of light above 1, so that white paper does not burn out. */
const BEND = 0.3;

/** Shade of the light that a sample returns. */
export function bent(lit: number): number {
  return lit > 1 ? 1 + BEND * (lit - 1) : lit;
}

/** Light of a sample of this shade: what `bent` undoes. */
export function unbent(shade: number): number {
  return shade > 1 ? 1 + (shade - 1) / BEND : shade;
}

/** Draws rows of samples of one piece of cloth. */
export interface RowPainter {
  readonly model: LinenModel;
  readonly piece: ClothPiece;
  readonly knots: Knots;
  readonly across: Axis;
  readonly down: Axis;
  /** First sample of each row, and how many. */
  readonly first: number;
  readonly count: number;
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
  return { model, piece, knots: openKnots(piece.ends), across, down, first, count };
}

/**
 * Draws sample row `row` of the plane.
 *
 * The row is walked from end to end. Between the centres of two neighbouring ends the nearest pick
 * is a straight piece, so a sample needs one end, one pick and a dozen looked-up numbers.
 */
export function paintRow(painter: RowPainter, row: number, out: SampleRow): void {
  const { model, piece, knots, across, down, first, count } = painter;
  cutEnds(model, piece, down, row, knots);
  const { warp, weft, gap, ink } = model;
  const { ends } = piece;
  const { shade, warp: warpShare, weft: weftShare, ink: inkLight, fromX, fromY } = out;
  const {
    light: warpLight,
    surface: warpSurface,
    shadow: warpShadow,
    centre: warpCentre,
    narrow: warpNarrow,
  } = warp.lit;
  const {
    light: weftLight,
    surface: weftSurface,
    shadow: weftShadow,
    centre: weftCentre,
    narrow: weftNarrow,
  } = weft.lit;
  const { streaks: warpStreaks, fray: warpFray } = warp.fibres;
  const { streaks: weftStreaks, fray: weftFray, samples: weftSamples } = weft.fibres;
  const { half: weftHalf, tone: weftTone, offset: weftOffset, fibre: weftStrip } = piece.weft;
  const { warpUp, floats } = piece;
  const warpInk = ink ? ink.warp : NO_INK;
  const weftInk = ink ? ink.weft : NO_INK;
  const groundInk = ink ? ink.ground : 0;
  const warpAcross = ink ? ink.warpAcross : 0;
  const weftAcross = ink ? ink.weftAcross : 0;
  const { scale, span } = across;
  const stride = 2 * across.count;
  const perSample = 1 / (stride * scale);
  const sharp = 1 / CONTACT;
  const last = first + count;
  const place0 = (2 * row + 1) * down.count - (2 * piece.firstPick + 1) * down.span;
  const pitch = 2 * span * scale;

  for (let end = 0; end + 1 < ends; end++) {
    // Sample `base` is the last one left of the even place of this end, by `rest` units.
    const place = (2 * (piece.firstEnd + end) + 1) * span - across.count;
    const base = Math.floor(place / stride);
    const rest = place - base * stride;
    const left = knots.centre[end];
    const right = pitch + knots.centre[end + 1];
    const from = base + Math.ceil((left / scale + rest) / stride);
    const to = base + Math.ceil((right / scale + rest) / stride);
    if (to <= first || from >= last) continue;
    const perSpan = 1 / (right - left);
    const middle = (left + knots.half[end] + right - knots.half[end + 1]) / 2;
    const endCut = base + Math.ceil((middle / scale + rest) / stride);

    const pickA = knots.pick[end];
    const pickB = knots.pick[end + 1];
    let pickCut = to;
    if (pickA !== pickB) {
      const cut = left + (right - left) * boundaryBetween(painter, place0, end, pickA, pickB);
      pickCut = base + Math.ceil((cut / scale + rest) / stride);
    }

    let p = Math.max(from, first);
    const stop = Math.min(to, last);
    while (p < stop) {
      const onLeft = p < endCut;
      const onA = p < pickCut;
      let until = stop;
      if (onLeft && endCut < until) until = endCut;
      if (onA && pickCut < until) until = pickCut;

      const knot = onLeft ? end : end + 1;
      const x0 = onLeft ? left : right;
      const warpHalfHere = knots.half[knot];
      const perHalf = 1 / warpHalfHere;
      const warpSoft = warpHalfHere * perSample;
      const warpTone = knots.tone[knot];
      const course = knots.course[knot];
      const warpRow = course * SECTION_STEPS;
      const warpZ = warpCentre[course];
      const warpBands = knots.fibre[knot] * FIBRE_BANDS;
      const frayLow = warpNarrow[course] * (1 + warpFray[2 * knots.fibre[knot]]);
      const frayHigh = warpNarrow[course] * (1 + warpFray[2 * knots.fibre[knot] + 1]);

      const pick = onA ? pickA : pickB;
      const a = pick * ends + end;
      const yPick = (place0 - 2 * down.span * pick) * down.scale;
      const y0 = yPick - weftOffset[a];
      const y1 = weftOffset[a] - weftOffset[a + 1];
      const invHalf0 = 1 / weftHalf[a];
      const invHalf1 = 1 / weftHalf[a + 1] - invHalf0;
      const weftSoft = weftHalf[a] * perSample;
      const tone0 = weftTone[a];
      const tone1 = weftTone[a + 1] - tone0;
      const weftCourse = (3 - 2 * warpUp[a] - warpUp[a + 1]) * ALONG_STEPS;
      const strip = weftStrip[a];
      const toWarpInk = knots.toInk[knot];
      let weftPull = 0;
      let weftMiddle = 0;
      if (ink && warpUp[a] + warpUp[a + 1] < 2) {
        const over = warpUp[a] ? a + 1 : a;
        weftPull = floats.pull[over];
        weftMiddle = (over === a ? left : right) + floats.toMiddle[over] * pitch;
      }

      let units = (p - base) * stride - rest;
      for (let k = p - first; p < until; p++, k++, units += stride) {
        const x = units * scale;
        const f = (x - left) * perSpan;
        let u = (x - x0) * perHalf;
        u *= u < 0 ? frayLow : frayHigh;
        const weftAlong = weftCourse + ((f * ALONG_STEPS) | 0);
        const sample = strip + ((f * weftSamples) | 0);
        const away = y0 + f * y1;
        let v = away * (invHalf0 + f * invHalf1);
        v *= weftNarrow[weftAlong] * (1 + weftFray[2 * sample + (v < 0 ? 0 : 1)]);

        let i = (u * STEPS_PER_UNIT + SECTION_CENTRE) | 0;
        i = i < 0 ? 0 : i >= SECTION_STEPS ? SECTION_STEPS - 1 : i;
        let j = (v * STEPS_PER_UNIT + SECTION_CENTRE) | 0;
        j = j < 0 ? 0 : j >= SECTION_STEPS ? SECTION_STEPS - 1 : j;

        let warpCover = (u < 0 ? 1 + u : 1 - u) * warpSoft + 0.5;
        warpCover = warpCover < 0 ? 0 : Math.min(warpCover, 1);
        let weftCover = (v < 0 ? 1 + v : 1 - v) * weftSoft + 0.5;
        weftCover = weftCover < 0 ? 0 : Math.min(weftCover, 1);

        const above = warpZ + warpSurface[i] - weftCentre[weftAlong] - weftSurface[j];
        let warpOver = above * sharp + 0.5;
        warpOver = warpOver < 0 ? 0 : Math.min(warpOver, 1);
        const weftOver = 1 - warpOver;

        const warpShown = warpCover * (1 - weftCover * weftOver);
        const weftShown = weftCover * (1 - warpCover * warpOver);
        const warpDark = 1 - warpShadow[i] * warpOver;
        const weftDark = 1 - weftShadow[j] * weftOver;
        const warpFibre = warpStreaks[warpBands + (i >> 2)];
        const weftFibre = weftStreaks[sample * FIBRE_BANDS + (j >> 2)];
        const onWarp = warpLight[warpRow + i] * warpTone * (1 + warpFibre) * weftDark;
        const onWeft =
          weftLight[weftAlong * SECTION_STEPS + j] * (tone0 + f * tone1) * (1 + weftFibre) * warpDark;
        const hair = 1 + HAIR * (warpFibre + weftFibre);
        const ground = gap * Math.max(hair, BARE) * warpDark * weftDark;
        const open = 1 - warpShown - weftShown;
        const lit = warpShown * onWarp + weftShown * onWeft + open * ground;
        shade[k] = bent(lit);
        warpShare[k] = warpShown;
        weftShare[k] = weftShown;
        if (ink) {
          const onWarpInk = warpInk[warpRow + i];
          const onWeftInk = weftInk[weftAlong * SECTION_STEPS + j];
          inkLight[k] =
            warpShown * onWarpInk * (1 + FIBRES * warpFibre * (1 - onWarpInk)) +
            weftShown * onWeftInk * (1 + FIBRES * weftFibre * (1 - onWeftInk)) +
            open * groundInk;
          fromX[k] = warpShown * warpAcross * (x0 - x) + weftShown * weftPull * (weftMiddle - x);
          fromY[k] = warpShown * toWarpInk - weftShown * weftAcross * away;
        }
      }
    }
  }
}

/**
 * Where the row passes from pick `a`, nearest at end `end`, to pick `b`, nearest at the next one: as a
 * share of the way between the two ends. There it is as far from the edge of one as of the other.
 */
function boundaryBetween(
  { piece, down }: RowPainter,
  place0: number,
  end: number,
  a: number,
  b: number,
): number {
  const { half, offset } = piece.weft;
  const sign = a < b ? 1 : -1;
  const yA = (place0 - 2 * down.span * a) * down.scale;
  const yB = (place0 - 2 * down.span * b) * down.scale;
  const onA = a * piece.ends + end;
  const onB = b * piece.ends + end;
  const nearness = (k: number) =>
    sign * (yA - offset[onA + k] + yB - offset[onB + k]) - half[onA + k] + half[onB + k];
  const atLeft = nearness(0);
  return atLeft / (atLeft - nearness(1));
}
