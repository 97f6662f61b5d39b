import { describe, expect, it } from 'vitest';
import { makeLinen } from '../testing/linen-weave.ts';
import { cutCloth } from './cloth.ts';
import { cutEnds, openKnots } from './knots.ts';
import { BARE, BEND, CONTACT, FIBRES, HAIR } from './look.ts';
import type { LinenModel } from './model.ts';
import { openPainter, paintRow } from './painter.ts';
import { type Axis, axisOf, threadAt } from './raster.ts';
import { openRow, type SampleRow } from './row.ts';
import { ALONG_STEPS, FIBRE_BANDS, SECTION_CENTRE, SECTION_STEPS, STEPS_PER_UNIT } from './steps.ts';

const [COLUMNS, ROWS] = [211, 40];
const clamp = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high);

describe('the kernel', () => {
  it.each<[Record<string, unknown>, string, number, number, number]>([
    [{}, 'straight', 300, -37, -53],
    [{ fibres: 60, slubs: 12, unevenness: 60, straying: 2 }, 'drop:1/2', 300, 400, 0],
    [{ relief: 2, wear: 1, gap: 100 }, 'brick:1/3', 150, -900, 331],
    [{ inked: 1 }, 'drop:2/5', 300, 11, 77],
    [
      { inked: 0.4, weave: 'satin', ends: 28, picks: 20, warpCount: 50, weftCount: 50 },
      'straight',
      508,
      3,
      5,
    ],
    [{ inked: 0.7, weave: 'twill', ends: 3, picks: 40, weftCount: 20 }, 'straight', 1200, 99, 1],
  ])('draws what the formulas say, to the last bit of a float: %j', (parameters, layout, dpi, left, top) => {
    const { model } = makeLinen(parameters, layout, '41x29mm', 300);
    const axes = (mm: number) =>
      [axisOf(model.sett.ends, model.width, mm, 1), axisOf(model.sett.picks, model.height, mm, 1)] as const;
    const [across, down] = axes(25.4 / dpi);
    const painter = openPainter(model, across, down, left, COLUMNS, top, ROWS);
    for (let y = top; y < top + ROWS; y++) {
      const drawn = paintRow(painter, y);
      const wanted = rowByFormulas(model, across, down, left, y);
      for (const name of model.ink ? NAMES : NAMES.slice(0, 3))
        expect(drawn[name], name).toEqual(wanted[name]);
    }
  });
  it('is opened anew for another cloth, and for the first again', () => {
    const one = makeLinen({}, 'straight', '41x29mm', 300).model;
    const other = makeLinen({ tone: 30 }, 'straight', '41x29mm', 300).model;
    const drawn = [one, { ...other, gap: 0 }, one].map((model) => {
      const across = axisOf(model.sett.ends, model.width, 25.4 / 300, 1);
      const down = axisOf(model.sett.picks, model.height, 25.4 / 300, 1);
      return Float32Array.from(paintRow(openPainter(model, across, down, 0, COLUMNS, 0, 1), 0).shade);
    });
    expect(drawn[2]).toEqual(drawn[0]);
    expect(drawn[1]).not.toEqual(drawn[0]);
  });
});

const NAMES = ['shade', 'warp', 'weft', 'ink', 'fromX', 'fromY'] as const;

/** A row in plain double precision, sample by sample; each is looked for among all ends. */
function rowByFormulas(model: LinenModel, across: Axis, down: Axis, first: number, row: number): SampleRow {
  const out = openRow(COLUMNS);
  const firstEnd = threadAt(across, first) - 8;
  const ends = threadAt(across, first + COLUMNS) + 8 - firstEnd;
  const firstPick = threadAt(down, row) - 8;
  const piece = cutCloth(model, firstEnd, ends, firstPick, 17);
  const knots = openKnots(ends);
  cutEnds(model, piece, down, row, knots);
  for (let p = first; p < first + COLUMNS; p++) {
    const xOf = (end: number) =>
      ((2 * p + 1) * across.count - (2 * (firstEnd + end) + 1) * across.span) * across.scale;
    let end = 0;
    while (xOf(end + 1) >= knots.centre[end + 1]) end++;
    const sample = sampleByFormulas(model, { piece, knots, across, down, row, end, x: xOf(end) });
    for (const name of NAMES) out[name][p - first] = sample[name];
  }
  return out;
}

interface Place {
  readonly piece: ReturnType<typeof cutCloth>;
  readonly knots: ReturnType<typeof openKnots>;
  readonly across: Axis;
  readonly down: Axis;
  readonly row: number;
  /** The sample lies between this end and the next, so many mm right of the even place of this one. */
  readonly end: number;
  readonly x: number;
}

function sampleByFormulas(model: LinenModel, place: Place) {
  const { piece, knots, across, down, row, end, x } = place;
  const { warp, weft, gap, ink } = model;
  const { half, tone, offset, fibre } = piece.weft;
  const pitch = 2 * across.span * across.scale;
  const [left, right] = [knots.centre[end], pitch + knots.centre[end + 1]];
  const isLeft = x < (left + knots.half[end] + right - knots.half[end + 1]) / 2;
  const knot = isLeft ? end : end + 1;
  const yOf = (pick: number) =>
    ((2 * row + 1) * down.count - (2 * piece.firstPick + 1) * down.span - 2 * down.span * pick) * down.scale;
  const pick = x < left + (right - left) * boundary(place, yOf) ? knots.pick[end] : knots.pick[end + 1];
  const at = pick * piece.ends + end;
  const soft = 1 / (2 * across.count * across.scale);

  const f = (x - left) * (1 / (right - left));
  const course = knots.course[knot];
  const u0 = (x - (isLeft ? left : right)) * (1 / knots.half[knot]);
  const warpFray = 1 + warp.fibres.fray[2 * knots.fibre[knot] + (u0 < 0 ? 0 : 1)];
  const u = u0 * (warp.lit.narrow[course] * warpFray);
  const weftAlong =
    (3 - 2 * piece.warpUp[at] - piece.warpUp[at + 1]) * ALONG_STEPS + Math.floor(f * ALONG_STEPS);
  const strip = fibre[at] + Math.floor(f * weft.fibres.samples);
  const away = yOf(pick) - offset[at] + f * (offset[at] - offset[at + 1]);
  const v0 = away * (1 / half[at] + f * (1 / half[at + 1] - 1 / half[at]));
  const v = v0 * (weft.lit.narrow[weftAlong] * (1 + weft.fibres.fray[2 * strip + (v0 < 0 ? 0 : 1)]));
  const stepOf = (w: number) => clamp(Math.floor(w * STEPS_PER_UNIT + SECTION_CENTRE), 0, SECTION_STEPS - 1);
  const [i, j] = [stepOf(u), stepOf(v)];

  const warpCover = clamp((1 - Math.abs(u)) * (knots.half[knot] * soft) + 0.5, 0, 1);
  const weftCover = clamp((1 - Math.abs(v)) * (half[at] * soft) + 0.5, 0, 1);
  const warpHeight = warp.lit.centre[course] + warp.lit.surface[i];
  const warpOver = clamp(
    (warpHeight - weft.lit.centre[weftAlong] - weft.lit.surface[j]) * (1 / CONTACT) + 0.5,
    0,
    1,
  );
  const warpShown = warpCover * (1 - weftCover * (1 - warpOver));
  const weftShown = weftCover * (1 - warpCover * warpOver);
  const open = 1 - warpShown - weftShown;
  const warpDark = 1 - warp.lit.shadow[i] * warpOver;
  const weftDark = 1 - weft.lit.shadow[j] * (1 - warpOver);
  const warpFibre = warp.fibres.streaks[knots.fibre[knot] * FIBRE_BANDS + (i >> 2)];
  const weftFibre = weft.fibres.streaks[strip * FIBRE_BANDS + (j >> 2)];
  const onWarp = warp.lit.light[course * SECTION_STEPS + i] * knots.tone[knot] * (1 + warpFibre) * weftDark;
  const weftTone = tone[at] + f * (tone[at + 1] - tone[at]);
  const onWeft = weft.lit.light[weftAlong * SECTION_STEPS + j] * weftTone * (1 + weftFibre) * warpDark;
  const ground = gap * Math.max(1 + HAIR * (warpFibre + weftFibre), BARE) * warpDark * weftDark;
  const lit = warpShown * onWarp + weftShown * onWeft + open * ground;
  const shade = lit > 1 ? 1 + BEND * (lit - 1) : lit;
  const light = { shade, warp: warpShown, weft: weftShown, ink: 0, fromX: 0, fromY: 0 };
  if (!ink) return light;

  const inked = (took: number, streak: number) => took * (1 + FIBRES * streak * (1 - took));
  const onWarpInk = inked(ink.warp[course * SECTION_STEPS + i], warpFibre);
  const onWeftInk = inked(ink.weft[weftAlong * SECTION_STEPS + j], weftFibre);
  const over = piece.warpUp[at] ? at + 1 : at;
  const passes = piece.warpUp[over] === 0;
  const middle = passes ? (over === at ? left : right) + piece.floats.toMiddle[over] * pitch : 0;
  const pull = passes ? piece.floats.pull[over] : 0;
  return {
    ...light,
    ink: warpShown * onWarpInk + weftShown * onWeftInk + open * ink.ground,
    fromX: warpShown * ink.warpAcross * ((isLeft ? left : right) - x) + weftShown * pull * (middle - x),
    fromY: warpShown * knots.toInk[knot] - weftShown * ink.weftAcross * away,
  };
}

/** The share of the way between the ends at which the sample's pick changes; beyond it where it does not. */
function boundary({ piece, knots, end }: Place, yOf: (pick: number) => number): number {
  const [a, b] = [knots.pick[end], knots.pick[end + 1]];
  if (a === b) return 2;
  const { half, offset } = piece.weft;
  const nearness = (k: number) => {
    const [onA, onB] = [a * piece.ends + end + k, b * piece.ends + end + k];
    return Math.sign(b - a) * (yOf(a) - offset[onA] + yOf(b) - offset[onB]) - half[onA] + half[onB];
  };
  return nearness(0) / (nearness(0) - nearness(1));
}
