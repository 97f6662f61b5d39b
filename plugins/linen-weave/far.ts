import { type ClothPiece, cutCloth } from './cloth.ts';
import { COURSES } from './light.ts';
import type { ClothInk, FarLight, LinenModel, YarnSet } from './model.ts';
import type { Axis } from './raster.ts';
import type { SampleRow } from './row.ts';
import { sectionAt } from './section.ts';
import { ALONG_STEPS, SECTION_STEPS } from './steps.ts';

/** Reads the mean lights out of the tables. */
export function farLightOf(warp: YarnSet, weft: YarnSet, gap: number): FarLight {
  return {
    warpOver: meanOnYarn(warp.lit.light, 1),
    warpUnder: meanOnYarn(warp.lit.light, 0) * clear(weft),
    weftOver: meanOnYarn(weft.lit.light, 1),
    weftUnder: meanOnYarn(weft.lit.light, 0) * clear(warp),
    gap: gap * clear(warp) * clear(weft),
  };
}

/** The same of the ink of a printed cloth. */
export function farInkOf({ warp, weft, ground }: Pick<ClothInk, 'warp' | 'weft' | 'ground'>): FarLight {
  return {
    warpOver: meanOnYarn(warp, 1),
    warpUnder: meanOnYarn(warp, 0),
    weftOver: meanOnYarn(weft, 1),
    weftUnder: meanOnYarn(weft, 0),
    gap: ground,
  };
}

/**
 * The mean of a table by course, place and section over the visible half of a yarn, along the half cells next to
 * a crossing that it passes over (1) or under (0).
 */
function meanOnYarn(table: Float32Array, over: number): number {
  let sum = 0;
  let count = 0;
  for (let course = 0; course < COURSES; course++) {
    for (let step = 0; step < ALONG_STEPS; step++) {
      const crossing = step < ALONG_STEPS / 2 ? course >> 1 : course & 1;
      if (crossing !== over) continue;
      for (let k = 0; k < SECTION_STEPS; k++) {
        if (Math.abs(sectionAt(k)) > 1) continue;
        sum += table[(course * ALONG_STEPS + step) * SECTION_STEPS + k];
        count++;
      }
    }
  }
  return sum / count;
}

/** What a yarn leaves of the light right beside it, on average. */
function clear({ lit }: YarnSet): number {
  const beside = lit.shadow.filter((_, k) => Math.abs(sectionAt(k)) > 1);
  return 1 - beside.reduce((sum, value) => sum + value, 0) / beside.length;
}

/**
 * Draws pixel row `y` of the plane from the means of the crossings it covers, each weighted by the
 * area it shares with the pixel. No thread is drawn, so none can beat against the pixels; what is
 * left is what the eye has left: the mean, and the streaks of light and heavy yarns.
 */
export function paintFarRow(
  model: LinenModel,
  across: Axis,
  down: Axis,
  x: number,
  y: number,
  out: SampleRow,
): void {
  const width = out.shade.length;
  const firstPick = Math.floor((y * down.count) / down.span);
  const lastPick = Math.floor(((y + 1) * down.count) / down.span);
  const firstEnd = Math.floor((x * across.count) / across.span);
  const lastEnd = Math.floor(((x + width) * across.count) / across.span);
  const piece = cutCloth(model, firstEnd, lastEnd - firstEnd + 1, firstPick, lastPick - firstPick + 1);
  const columns = {
    shade: new Float64Array(piece.ends),
    warp: new Float64Array(piece.ends),
    weft: new Float64Array(piece.ends),
    ink: new Float64Array(piece.ends),
  };
  for (let pick = 0; pick < piece.picks; pick++) {
    addPick(model, piece, pick, sharedPart(down, y, firstPick + pick), columns);
  }
  for (let pixel = 0; pixel < width; pixel++) {
    let [shade, warp, weft, ink] = [0, 0, 0, 0];
    const from = Math.floor(((x + pixel) * across.count) / across.span);
    const to = Math.floor(((x + pixel + 1) * across.count) / across.span);
    for (let end = from; end <= to; end++) {
      const part = sharedPart(across, x + pixel, end);
      shade += part * columns.shade[end - firstEnd];
      warp += part * columns.warp[end - firstEnd];
      weft += part * columns.weft[end - firstEnd];
      ink += part * columns.ink[end - firstEnd];
    }
    out.shade[pixel] = shade;
    out.warp[pixel] = warp;
    out.weft[pixel] = weft;
    out.ink[pixel] = ink;
  }
}

/** The share of pixel `p` that lies on thread `k`; whole numbers until the last division, as in `Axis`. */
function sharedPart({ count, span }: Axis, p: number, k: number): number {
  const from = p * count - k * span;
  const shared = Math.min(from + count, span) - Math.max(from, 0);
  return shared > 0 ? shared / count : 0;
}

function addPick(
  model: LinenModel,
  { ends, warpUp, warp, weft }: ClothPiece,
  pick: number,
  part: number,
  columns: { readonly [Name in 'shade' | 'warp' | 'weft' | 'ink']: Float64Array },
): void {
  const { far, ink } = model;
  const { endPitch, pickPitch } = model.sett;
  for (let end = 0, at = pick * ends; end < ends; end++, at++) {
    const warpCover = Math.min(1, (2 * warp.half[at]) / endPitch);
    const weftCover = Math.min(1, (2 * weft.half[at]) / pickPitch);
    const isUp = warpUp[at] === 1;
    const warpShown = isUp ? warpCover : warpCover * (1 - weftCover);
    const weftShown = isUp ? weftCover * (1 - warpCover) : weftCover;
    const onWarp = warp.tone[at] * (isUp ? far.warpOver : far.warpUnder);
    const onWeft = weft.tone[at] * (isUp ? far.weftUnder : far.weftOver);
    const shade = warpShown * onWarp + weftShown * onWeft + (1 - warpShown - weftShown) * far.gap;
    columns.shade[end] += part * shade;
    columns.warp[end] += part * warpShown;
    columns.weft[end] += part * weftShown;
    if (!ink) continue;
    const warpInk = isUp ? ink.far.warpOver : ink.far.warpUnder;
    const weftInk = isUp ? ink.far.weftUnder : ink.far.weftOver;
    columns.ink[end] +=
      part * (warpShown * warpInk + weftShown * weftInk + (1 - warpShown - weftShown) * ink.far.gap);
  }
}
