import { type Box, fractalAt, fractalNoise, type RandomStream } from 'tenter';
import { addPaint, openCover, paintUnder } from './cover.ts';
import type { Stroke } from './model.ts';
import type { BrushValues } from './parameters.ts';

export interface StrokeStreams {
  readonly places: RandomStream;
  readonly turns: RandomStream;
  readonly forms: RandomStream;
}

/** More strokes than this no painter lays, and no memory holds. */
const MOST_STROKES = 60_000;
/** How many places are looked at before a stroke is laid on the barest of them. */
const CHOICES = 12;

/** Strokes of one repeat, in the order in which they are laid. */
export function layStrokes(box: Box, values: BrushValues, streams: StrokeStreams): Stroke[] {
  const { length, width, layers } = values;
  const count = strokeCount(box, (length * width) / layers);
  const turning = fractalNoise(
    box.lattice,
    { along: 1.6 * length, across: 1.6 * length },
    { octaves: 2, gain: 0.5 },
    streams.turns,
  );
  const cover = openCover(box, values.width / 3);
  const strokes: Stroke[] = [];
  for (let k = 0; k < count; k++) {
    const form = formStroke(values, streams);
    const places = Array.from({ length: CHOICES }, () => {
      const x = streams.places.between(0, box.width);
      const y = streams.places.between(0, box.height);
      const angle = form.angle + ((values.straying * Math.PI) / 180) * 0.7 * fractalAt(turning, x, y);
      return { ...form.stroke, x, y, cos: Math.cos(angle), sin: Math.sin(angle) };
    });
    const paint = places.map((place) => paintUnder(cover, place));
    const barest = places[paint.indexOf(Math.min(...paint))];
    addPaint(cover, barest);
    strokes.push(barest);
  }
  return strokes;
}

function strokeCount(box: Box, area: number): number {
  return Math.max(1, Math.min(MOST_STROKES, Math.round((box.width * box.height) / area)));
}

/** A stroke without its place, and its angle before that of the place is added. */
function formStroke(values: BrushValues, { turns, forms }: StrokeStreams) {
  const isAcross = turns.next() * 100 < values.crossing;
  const isBack = turns.next() < 0.3;
  const angle =
    values.direction + values.straying * 0.7 * turns.normal() + (isAcross ? 90 : 0) + (isBack ? 180 : 0);
  const length = values.length * Math.exp(0.3 * forms.normal() - 0.05);
  const width = values.width * (0.72 + 0.42 * forms.next());
  const arc = limit(values.bend * 0.55 * forms.normal(), 0.9);
  const swing = limit(values.bend * 0.3 * forms.normal(), 0.5);
  const stroke = {
    length,
    width,
    ...curveOf(arc, swing, length),
    fill: limit(forms.normal(), 2.2),
    body: limit(forms.normal(), 2),
  };
  return { stroke, angle: (angle * Math.PI) / 180 };
}

/**
 * The line v = length * (arc * (w^2 - 1/12) + swing * (w^3 - 0.15 w)), w = u / length: an arc and an
 * S-bend, each with mean 0 over the stroke.
 */
function curveOf(arc: number, swing: number, length: number): Pick<Stroke, 'curve' | 'sag'> {
  const curve = [(-arc / 12) * length, -0.15 * swing, arc / length, swing / length ** 2] as const;
  let sag = 0;
  for (let k = 0; k <= 16; k++) {
    const u = (k / 16 - 0.5) * length;
    sag = Math.max(sag, Math.abs(curve[0] + u * (curve[1] + u * (curve[2] + u * curve[3]))));
  }
  return { curve, sag };
}

function limit(value: number, most: number): number {
  return Math.max(-most, Math.min(most, value));
}
