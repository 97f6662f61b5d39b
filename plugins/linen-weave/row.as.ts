// The row of samples in WebAssembly, compiled by AssemblyScript: `npm run kernels` writes `row-kernel.ts`.
import { BARE, BEND, CONTACT, FIBRES, HAIR } from './look';
import { ALONG_STEPS, FIBRE_BANDS, SECTION_CENTRE, SECTION_STEPS, STEPS_PER_UNIT } from './steps';

// What `openPainter` sets by name: where things begin in memory, in bytes, and numbers of `RowPainter`.

/** Pairs of f64 across a yarn: height of its surface, and the share of light that it takes. */
export let warpSection: usize = 0;
export let weftSection: usize = 0;
/** Pairs of f64 along a yarn: height of its centre line, and how narrow it lies. */
export let warpCourses: usize = 0;
export let weftCourses: usize = 0;
/** Lists of f32, indexed as in `LitYarn`, `FibreStrip` and `ClothInk`. */
export let warpLight: usize = 0;
export let weftLight: usize = 0;
export let warpStreaks: usize = 0;
export let weftStreaks: usize = 0;
export let warpFray: usize = 0;
export let weftFray: usize = 0;
export let warpInk: usize = 0;
export let weftInk: usize = 0;
/** The weft of the piece: lists of f32, but `weftFibre` of i32. */
export let weftHalf: usize = 0;
export let weftTone: usize = 0;
export let weftOffset: usize = 0;
export let weftFibre: usize = 0;
/** List of u8. */
export let warpUp: usize = 0;
/** The floats of the piece: lists of f32. */
export let floatPull: usize = 0;
export let floatMiddle: usize = 0;
/** The knots of the row: lists of f64, then of i32. */
export let knotCentre: usize = 0;
export let knotHalf: usize = 0;
export let knotTone: usize = 0;
export let knotToInk: usize = 0;
export let knotCourse: usize = 0;
export let knotFibre: usize = 0;
export let knotPick: usize = 0;
/** What is filled: lists of f32 with room for four samples more. */
export let shade: usize = 0;
export let warpShare: usize = 0;
export let weftShare: usize = 0;
export let inkLight: usize = 0;
export let fromX: usize = 0;
export let fromY: usize = 0;

export let ends: i32 = 0;
export let firstEnd: i32 = 0;
export let firstPick: i32 = 0;
export let first: i32 = 0;
export let count: i32 = 0;
/** `Axis` across and down. */
export let acrossCount: f64 = 0;
export let acrossSpan: f64 = 0;
export let acrossScale: f64 = 0;
export let downCount: f64 = 0;
export let downSpan: f64 = 0;
export let downScale: f64 = 0;
export let gap: f64 = 0;
/** Samples of the fibre strip per cell of the weft. */
export let weftSamples: f64 = 0;
/** 1 where the cloth is printed; the rest as in `ClothInk`. */
export let printed: i32 = 0;
export let groundInk: f64 = 0;
export let warpAcross: f64 = 0;
export let weftAcross: f64 = 0;

/** Places past the run that a block works out as well lie no further along than this, in cells: tables end later. */
const FURTHEST: f64 = 1.5;

/**
 * Draws sample row `row` of the plane.
 *
 * The row is walked from end to end. Between the centres of two neighbouring ends the nearest pick is a straight
 * piece, so a sample needs one end, one pick and a dozen looked-up numbers. Such a run is drawn in blocks of four
 * samples, in double precision, two to a register; what a block draws beyond its run, the next run draws over.
 */
export function paintRow(row: i32): void {
  const one = f64x2.splat(1);
  const half = f64x2.splat(0.5);
  const stride = 2 * acrossCount;
  const perSample = 1 / (stride * acrossScale);
  const sharp = f64x2.splat(1 / CONTACT);
  const last = first + count;
  const place0 = <f64>(2 * row + 1) * downCount - <f64>(2 * firstPick + 1) * downSpan;
  const pitch = 2 * acrossSpan * acrossScale;
  const scale = f64x2.splat(acrossScale);
  const samples = f64x2.splat(weftSamples);
  const bare = f64x2.splat(gap);
  const steps01 = f64x2.replace_lane(f64x2.splat(0), 1, stride);
  const steps23 = f64x2.add(f64x2.splat(2 * stride), steps01);

  // Of the end that the run lies on.
  let knotNow = -1;
  let perHalf = one;
  let warpSoft = one;
  let warpTone = one;
  let warpZ = one;
  let frayLow = one;
  let frayHigh = one;
  let toWarpInk = one;
  let warpPlace: usize = 0;
  let warpBands: usize = 0;
  // And of the pick.
  let pickNow = -1;
  let y0 = one;
  let y1 = one;
  let invHalf0 = one;
  let invHalf1 = one;
  let weftSoft = one;
  let tone0 = one;
  let tone1 = one;
  let weftCourse: i32 = 0;
  let strip: i32 = 0;
  let weftPull = one;
  let weftMiddle = one;

  for (let end = 0; end + 1 < ends; end++) {
    // Sample `base` is the last one left of the even place of this end, by `rest` units.
    const place = <f64>(2 * (firstEnd + end) + 1) * acrossSpan - acrossCount;
    const base = Math.floor(place / stride);
    const rest = place - base * stride;
    const left = doubleAt(knotCentre, end);
    const right = pitch + doubleAt(knotCentre, end + 1);
    const from = sampleAt(left, base, rest, stride);
    const to = sampleAt(right, base, rest, stride);
    if (to <= first || from >= last) continue;
    const perSpan = f64x2.splat(1 / (right - left));
    const endCut = sampleAt(
      (left + doubleAt(knotHalf, end) + right - doubleAt(knotHalf, end + 1)) / 2,
      base,
      rest,
      stride,
    );
    const pickA = wholeAt(knotPick, end);
    const pickB = wholeAt(knotPick, end + 1);
    let pickCut = to;
    if (pickA !== pickB) {
      const cut = left + (right - left) * boundaryBetween(place0, end, pickA, pickB);
      pickCut = sampleAt(cut, base, rest, stride);
    }

    let p = max(from, first);
    const stop = min(to, last);
    while (p < stop) {
      const onLeft = p < endCut;
      const onA = p < pickCut;
      let until = stop;
      if (onLeft) until = min(until, endCut);
      if (onA) until = min(until, pickCut);

      const knot = onLeft ? end : end + 1;
      const x0 = onLeft ? left : right;
      if (knot !== knotNow) {
        knotNow = knot;
        const warpHalfHere = doubleAt(knotHalf, knot);
        const course = wholeAt(knotCourse, knot);
        const fibre = wholeAt(knotFibre, knot);
        const narrow = doubleAt(warpCourses, 2 * course + 1);
        perHalf = f64x2.splat(1 / warpHalfHere);
        warpSoft = f64x2.splat(warpHalfHere * perSample);
        if (printed) toWarpInk = f64x2.splat(doubleAt(knotToInk, knot));
        warpTone = f64x2.splat(doubleAt(knotTone, knot));
        warpZ = f64x2.splat(doubleAt(warpCourses, 2 * course));
        frayLow = f64x2.splat(narrow * (1 + singleAt(warpFray, 2 * fibre)));
        frayHigh = f64x2.splat(narrow * (1 + singleAt(warpFray, 2 * fibre + 1)));
        warpPlace = (<usize>(course * SECTION_STEPS)) << 2;
        warpBands = warpStreaks + ((<usize>(fibre * FIBRE_BANDS)) << 2);
      }
      const pick = onA ? pickA : pickB;
      const a = pick * ends + end;
      if (a !== pickNow) {
        pickNow = a;
        const offset = singleAt(weftOffset, a);
        const halfHere = singleAt(weftHalf, a);
        const inverse = 1 / halfHere;
        const tone = singleAt(weftTone, a);
        y0 = f64x2.splat((place0 - 2 * downSpan * <f64>pick) * downScale - offset);
        y1 = f64x2.splat(offset - singleAt(weftOffset, a + 1));
        invHalf0 = f64x2.splat(inverse);
        invHalf1 = f64x2.splat(1 / singleAt(weftHalf, a + 1) - inverse);
        weftSoft = f64x2.splat(halfHere * perSample);
        tone0 = f64x2.splat(tone);
        tone1 = f64x2.splat(singleAt(weftTone, a + 1) - tone);
        const up = byteAt(warpUp, a);
        const upNext = byteAt(warpUp, a + 1);
        weftCourse = (3 - 2 * up - upNext) * ALONG_STEPS;
        strip = wholeAt(weftFibre, a);
        if (printed) {
          const over = up ? a + 1 : a;
          const passes = up + upNext < 2;
          weftPull = f64x2.splat(passes ? singleAt(floatPull, over) : 0);
          weftMiddle = f64x2.splat(passes ? (up ? right : left) + singleAt(floatMiddle, over) * pitch : 0);
        }
      }

      const lefts = f64x2.splat(left);
      const middles = f64x2.splat(x0);
      for (; p < until; p += 4) {
        const units = f64x2.splat((<f64>p - base) * stride - rest);
        const x01 = f64x2.mul(f64x2.add(units, steps01), scale);
        const x23 = f64x2.mul(f64x2.add(units, steps23), scale);
        const f01 = along(x01, lefts, perSpan);
        const f23 = along(x23, lefts, perSpan);
        const u01 = frayed(f64x2.mul(f64x2.sub(x01, middles), perHalf), frayLow, frayHigh);
        const u23 = frayed(f64x2.mul(f64x2.sub(x23, middles), perHalf), frayLow, frayHigh);
        const course = i32x4.add(i32x4.splat(weftCourse), places(f01, f23, f64x2.splat(ALONG_STEPS)));
        const sample = i32x4.add(i32x4.splat(strip), places(f01, f23, samples));
        const away01 = f64x2.add(y0, f64x2.mul(f01, y1));
        const away23 = f64x2.add(y0, f64x2.mul(f23, y1));
        const w01 = f64x2.mul(away01, f64x2.add(invHalf0, f64x2.mul(f01, invHalf1)));
        const w23 = f64x2.mul(away23, f64x2.add(invHalf0, f64x2.mul(f23, invHalf1)));
        const above = i32x4.shuffle(f64x2.lt(w01, f64x2.splat(0)), f64x2.lt(w23, f64x2.splat(0)), 0, 2, 4, 6);
        // The lower edge stands before the upper one; a mask that holds is -1.
        const fray = singlesAt(
          weftFray,
          i32x4.shl(i32x4.add(i32x4.add(i32x4.shl(sample, 1), above), i32x4.splat(1)), 2),
        );
        const course01 = pairAt0(weftCourses, course);
        const course01Next = pairAt1(weftCourses, course);
        const course23 = pairAt2(weftCourses, course);
        const course23Next = pairAt3(weftCourses, course);
        const v01 = f64x2.mul(w01, f64x2.mul(seconds(course01, course01Next), f64x2.add(one, low(fray))));
        const v23 = f64x2.mul(w23, f64x2.mul(seconds(course23, course23Next), f64x2.add(one, high(fray))));

        const i = sections(u01, u23);
        const j = sections(v01, v23);
        const i0 = pairAt0(warpSection, i);
        const i1 = pairAt1(warpSection, i);
        const i2 = pairAt2(warpSection, i);
        const i3 = pairAt3(warpSection, i);
        const j0 = pairAt0(weftSection, j);
        const j1 = pairAt1(weftSection, j);
        const j2 = pairAt2(weftSection, j);
        const j3 = pairAt3(weftSection, j);
        const iBytes = i32x4.shl(i, 2);
        const jBytes = i32x4.shl(j, 2);
        const weftPlace = i32x4.add(i32x4.mul(course, i32x4.splat(4 * SECTION_STEPS)), jBytes);
        const onFour = i32x4.splat(~3);
        const warpFibres = singlesAt(warpBands, v128.and(i, onFour));
        const weftFibres = singlesAt(
          weftStreaks,
          i32x4.add(i32x4.mul(sample, i32x4.splat(4 * FIBRE_BANDS)), v128.and(j, onFour)),
        );
        const warpLights = singlesAt(warpLight + warpPlace, iBytes);
        const weftLights = singlesAt(weftLight, weftPlace);

        const warpCover01 = coverOf(u01, warpSoft);
        const weftCover01 = coverOf(v01, weftSoft);
        const warpHeight01 = f64x2.add(warpZ, firsts(i0, i1));
        const over01 = f64x2.sub(f64x2.sub(warpHeight01, firsts(course01, course01Next)), firsts(j0, j1));
        const warpOver01 = toUnit(f64x2.add(f64x2.mul(over01, sharp), half));
        const weftOver01 = f64x2.sub(one, warpOver01);
        const warp01 = shownOf(warpCover01, weftCover01, weftOver01);
        const weft01 = shownOf(weftCover01, warpCover01, warpOver01);
        const open01 = f64x2.sub(f64x2.sub(one, warp01), weft01);
        const warpDark01 = shadeOf(seconds(i0, i1), warpOver01);
        const weftDark01 = shadeOf(seconds(j0, j1), weftOver01);
        const warpFibre01 = low(warpFibres);
        const weftFibre01 = low(weftFibres);
        const tone01 = f64x2.add(tone0, f64x2.mul(f01, tone1));
        const onWarp01 = litOf(low(warpLights), warpTone, warpFibre01, weftDark01);
        const onWeft01 = litOf(low(weftLights), tone01, weftFibre01, warpDark01);
        const hair01 = f64x2.add(one, f64x2.mul(f64x2.splat(HAIR), f64x2.add(warpFibre01, weftFibre01)));
        const hairy01 = f64x2.mul(bare, f64x2.pmax(hair01, f64x2.splat(BARE)));
        const ground01 = f64x2.mul(f64x2.mul(hairy01, warpDark01), weftDark01);
        const lit01 = mixOf(warp01, onWarp01, weft01, onWeft01, open01, ground01);

        const warpCover23 = coverOf(u23, warpSoft);
        const weftCover23 = coverOf(v23, weftSoft);
        const warpHeight23 = f64x2.add(warpZ, firsts(i2, i3));
        const over23 = f64x2.sub(f64x2.sub(warpHeight23, firsts(course23, course23Next)), firsts(j2, j3));
        const warpOver23 = toUnit(f64x2.add(f64x2.mul(over23, sharp), half));
        const weftOver23 = f64x2.sub(one, warpOver23);
        const warp23 = shownOf(warpCover23, weftCover23, weftOver23);
        const weft23 = shownOf(weftCover23, warpCover23, warpOver23);
        const open23 = f64x2.sub(f64x2.sub(one, warp23), weft23);
        const warpDark23 = shadeOf(seconds(i2, i3), warpOver23);
        const weftDark23 = shadeOf(seconds(j2, j3), weftOver23);
        const warpFibre23 = high(warpFibres);
        const weftFibre23 = high(weftFibres);
        const tone23 = f64x2.add(tone0, f64x2.mul(f23, tone1));
        const onWarp23 = litOf(high(warpLights), warpTone, warpFibre23, weftDark23);
        const onWeft23 = litOf(high(weftLights), tone23, weftFibre23, warpDark23);
        const hair23 = f64x2.add(one, f64x2.mul(f64x2.splat(HAIR), f64x2.add(warpFibre23, weftFibre23)));
        const hairy23 = f64x2.mul(bare, f64x2.pmax(hair23, f64x2.splat(BARE)));
        const ground23 = f64x2.mul(f64x2.mul(hairy23, warpDark23), weftDark23);
        const lit23 = mixOf(warp23, onWarp23, weft23, onWeft23, open23, ground23);

        const to = (<usize>(p - first)) << 2;
        v128.store(shade + to, singles(bentOf(lit01), bentOf(lit23)));
        v128.store(warpShare + to, singles(warp01, warp23));
        v128.store(weftShare + to, singles(weft01, weft23));
        if (!printed) continue;

        const warpInks = singlesAt(warpInk + warpPlace, iBytes);
        const weftInks = singlesAt(weftInk, weftPlace);
        const onWarpInk01 = inkedOf(low(warpInks), warpFibre01);
        const onWeftInk01 = inkedOf(low(weftInks), weftFibre01);
        const ink01 = mixOf(warp01, onWarpInk01, weft01, onWeftInk01, open01, f64x2.splat(groundInk));
        const toMiddle01 = f64x2.mul(f64x2.mul(warp01, f64x2.splat(warpAcross)), f64x2.sub(middles, x01));
        const toFloat01 = f64x2.mul(f64x2.mul(weft01, weftPull), f64x2.sub(weftMiddle, x01));
        const down01 = f64x2.mul(warp01, toWarpInk);
        const up01 = f64x2.mul(f64x2.mul(weft01, f64x2.splat(weftAcross)), away01);

        const onWarpInk23 = inkedOf(high(warpInks), warpFibre23);
        const onWeftInk23 = inkedOf(high(weftInks), weftFibre23);
        const ink23 = mixOf(warp23, onWarpInk23, weft23, onWeftInk23, open23, f64x2.splat(groundInk));
        const toMiddle23 = f64x2.mul(f64x2.mul(warp23, f64x2.splat(warpAcross)), f64x2.sub(middles, x23));
        const toFloat23 = f64x2.mul(f64x2.mul(weft23, weftPull), f64x2.sub(weftMiddle, x23));
        const down23 = f64x2.mul(warp23, toWarpInk);
        const up23 = f64x2.mul(f64x2.mul(weft23, f64x2.splat(weftAcross)), away23);
        v128.store(inkLight + to, singles(ink01, ink23));
        v128.store(fromX + to, singles(f64x2.add(toMiddle01, toFloat01), f64x2.add(toMiddle23, toFloat23)));
        v128.store(fromY + to, singles(f64x2.sub(down01, up01), f64x2.sub(down23, up23)));
      }
      p = until;
    }
  }
}

/** The first sample right of a place `x` mm right of the even place of an end. */
function sampleAt(x: f64, base: f64, rest: f64, stride: f64): i32 {
  return <i32>(base + Math.ceil((x / acrossScale + rest) / stride));
}

/**
 * Where the row passes from pick `a`, nearest at end `end`, to pick `b`, nearest at the next one: as a
 * share of the way between the two ends. There it is as far from the edge of one as of the other.
 */
function boundaryBetween(place0: f64, end: i32, a: i32, b: i32): f64 {
  const sign: f64 = a < b ? 1 : -1;
  const yA = (place0 - 2 * downSpan * <f64>a) * downScale;
  const yB = (place0 - 2 * downSpan * <f64>b) * downScale;
  const onA = a * ends + end;
  const onB = b * ends + end;
  const atLeft = nearness(sign, yA, yB, onA, onB);
  return atLeft / (atLeft - nearness(sign, yA, yB, onA + 1, onB + 1));
}

function nearness(sign: f64, yA: f64, yB: f64, a: i32, b: i32): f64 {
  const between = yA - singleAt(weftOffset, a) + yB - singleAt(weftOffset, b);
  return sign * between - singleAt(weftHalf, a) + singleAt(weftHalf, b);
}

// What the light does. Each takes two samples.

/** The share of the way from one end to the next. */
function along(x: v128, left: v128, perSpan: v128): v128 {
  return f64x2.pmin(f64x2.mul(f64x2.sub(x, left), perSpan), f64x2.splat(FURTHEST));
}

function frayed(u: v128, low: v128, high: v128): v128 {
  return f64x2.mul(u, v128.bitselect(low, high, f64x2.lt(u, f64x2.splat(0))));
}

function toUnit(value: v128): v128 {
  return f64x2.pmin(f64x2.splat(1), f64x2.pmax(f64x2.splat(0), value));
}

/** The share of a sample that a yarn covers, `u` half widths from its centre line. */
function coverOf(u: v128, soft: v128): v128 {
  return toUnit(f64x2.add(f64x2.mul(f64x2.sub(f64x2.splat(1), f64x2.abs(u)), soft), f64x2.splat(0.5)));
}

/** What shows of a yarn where another that covers `cover` lies over it by the share `over`. */
function shownOf(own: v128, cover: v128, over: v128): v128 {
  return f64x2.mul(own, f64x2.sub(f64x2.splat(1), f64x2.mul(cover, over)));
}

function shadeOf(shadow: v128, over: v128): v128 {
  return f64x2.sub(f64x2.splat(1), f64x2.mul(shadow, over));
}

function litOf(light: v128, tone: v128, fibre: v128, dark: v128): v128 {
  return f64x2.mul(f64x2.mul(f64x2.mul(light, tone), f64x2.add(f64x2.splat(1), fibre)), dark);
}

function mixOf(warp: v128, onWarp: v128, weft: v128, onWeft: v128, open: v128, ground: v128): v128 {
  return f64x2.add(f64x2.add(f64x2.mul(warp, onWarp), f64x2.mul(weft, onWeft)), f64x2.mul(open, ground));
}

/** As `bent`. */
function bentOf(lit: v128): v128 {
  const one = f64x2.splat(1);
  const bent = f64x2.add(one, f64x2.mul(f64x2.splat(BEND), f64x2.sub(lit, one)));
  return v128.bitselect(bent, lit, f64x2.gt(lit, one));
}

/** The light that the ink on a yarn returns, fibre by fibre. */
function inkedOf(ink: v128, fibre: v128): v128 {
  const one = f64x2.splat(1);
  return f64x2.mul(
    ink,
    f64x2.add(one, f64x2.mul(f64x2.mul(f64x2.splat(FIBRES), fibre), f64x2.sub(one, ink))),
  );
}

// Looking things up.

function doubleAt(list: usize, index: i32): f64 {
  return load<f64>(list + ((<usize>index) << 3));
}

function singleAt(list: usize, index: i32): f64 {
  return load<f32>(list + ((<usize>index) << 2));
}

function wholeAt(list: usize, index: i32): i32 {
  return load<i32>(list + ((<usize>index) << 2));
}

function byteAt(list: usize, index: i32): i32 {
  return <i32>load<u8>(list + <usize>index);
}

/** 2^52: added to it, a whole number stands in the lower half of a double as it is. */
const WHOLE: f64 = 4503599627370496;

/** Four whole numbers: those of two and two places of `per` steps each, cut. */
function places(f01: v128, f23: v128, per: v128): v128 {
  return wholes(f64x2.trunc(f64x2.mul(f01, per)), f64x2.trunc(f64x2.mul(f23, per)));
}

/** Steps across a yarn; what lies beyond the tables counts as their end. */
function sections(u01: v128, u23: v128): v128 {
  return wholes(sectionOf(u01), sectionOf(u23));
}

function sectionOf(u: v128): v128 {
  const place = f64x2.add(f64x2.mul(u, f64x2.splat(STEPS_PER_UNIT)), f64x2.splat(SECTION_CENTRE));
  return f64x2.trunc(f64x2.pmin(f64x2.splat(SECTION_STEPS - 1), f64x2.pmax(f64x2.splat(0), place)));
}

function wholes(a: v128, b: v128): v128 {
  const whole = f64x2.splat(WHOLE);
  return i32x4.shuffle(f64x2.add(a, whole), f64x2.add(b, whole), 0, 2, 4, 6);
}

/** Four numbers of a list of f32, at so many bytes each. */
function singlesAt(list: usize, bytes: v128): v128 {
  let found = v128.load32_zero(list + <usize>i32x4.extract_lane(bytes, 0));
  found = v128.load32_lane(list + <usize>i32x4.extract_lane(bytes, 1), found, 1);
  found = v128.load32_lane(list + <usize>i32x4.extract_lane(bytes, 2), found, 2);
  return v128.load32_lane(list + <usize>i32x4.extract_lane(bytes, 3), found, 3);
}

/** The pair of f64 at the first of four places, at the next, ... */
function pairAt0(list: usize, at: v128): v128 {
  return v128.load(list + ((<usize>i32x4.extract_lane(at, 0)) << 4));
}

function pairAt1(list: usize, at: v128): v128 {
  return v128.load(list + ((<usize>i32x4.extract_lane(at, 1)) << 4));
}

function pairAt2(list: usize, at: v128): v128 {
  return v128.load(list + ((<usize>i32x4.extract_lane(at, 2)) << 4));
}

function pairAt3(list: usize, at: v128): v128 {
  return v128.load(list + ((<usize>i32x4.extract_lane(at, 3)) << 4));
}

function firsts(a: v128, b: v128): v128 {
  return i64x2.shuffle(a, b, 0, 2);
}

function seconds(a: v128, b: v128): v128 {
  return i64x2.shuffle(a, b, 1, 3);
}

/** Two f32 as f64. */
function low(four: v128): v128 {
  return f64x2.promote_low_f32x4(four);
}

function high(four: v128): v128 {
  return f64x2.promote_low_f32x4(i64x2.shuffle(four, four, 1, 1));
}

/** Two and two f64 as four f32. */
function singles(a: v128, b: v128): v128 {
  return i64x2.shuffle(f32x4.demote_f64x2_zero(a), f32x4.demote_f64x2_zero(b), 0, 2);
}
