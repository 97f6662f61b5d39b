import {
  addFractalRow,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  stripsOf,
  type TextureLayer,
} from 'tenter';
import { STEPS } from './crossing.ts';
import type { CheckModel, ThreadSet } from './model.ts';

/** What a row of pixels has of each set's noises, as it is on pixels of that size. */
interface RowNoises {
  readonly body: Float32Array;
  readonly fibres: Float32Array;
  readonly straying: Float32Array;
  fill(x0: number, y: number, count: number): void;
}

/** Draws thread by thread: each sample looks up the crossing it lies on. */
export function paintNear(
  model: CheckModel,
  band: Band,
  layer: TextureLayer<'shade' | 'tint'>,
  samples: number,
): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  for (const { x0, y, skip, count, height, at } of stripsOf(band, model.lattice)) {
    const noises = { warp: openNoises(model.warp, band, count), weft: openNoises(model.weft, band, count) };
    for (let row = 0; row < height; row++) {
      const middle = (y + row + 0.5) * mmPerPixelY;
      noises.warp.fill(x0, middle, count);
      noises.weft.fill(x0, middle, count);
      const place = at + row * band.width - skip;
      drawRow(model, layer, noises, { x0, middle, skip, count, place, samples, mmPerPixelX, mmPerPixelY });
    }
  }
}

interface Row {
  /** mm, the middle of the first pixel, and of the row. */
  readonly x0: number;
  readonly middle: number;
  readonly skip: number;
  readonly count: number;
  /** Of the first pixel in the layer; it is not drawn where pixels are skipped. */
  readonly place: number;
  readonly samples: number;
  readonly mmPerPixelX: number;
  readonly mmPerPixelY: number;
}

/** One long function on purpose: its inner loop must keep some thirty numbers at hand. */
function drawRow(
  { crossings, weave, warp, weft, dye }: CheckModel,
  { shade, tint }: TextureLayer<'shade' | 'tint'>,
  noises: { readonly warp: RowNoises; readonly weft: RowNoises },
  { x0, middle, skip, count, place, samples, mmPerPixelX, mmPerPixelY }: Row,
): void {
  const { shade: shades, warp: shares, end: endAt, pick: pickAt } = crossings;
  const { pitch: endPitch, colours: endColours, tones: endTones } = warp;
  const { pitch: pickPitch, colours: pickColours, tones: pickTones } = weft;
  const [endLoop, pickLoop] = [endTones.length, pickTones.length];
  const part = 1 / (samples * samples);
  for (let pixel = skip; pixel < count; pixel++) {
    const left = x0 + (pixel - 0.5) * mmPerPixelX + noises.warp.straying[pixel];
    const top = middle - 0.5 * mmPerPixelY + noises.weft.straying[pixel];
    // A thick yarn is drawn wider and stands in more light.
    const endBody = noises.warp.body[pixel];
    const pickBody = noises.weft.body[pixel];
    const narrowEnd = 1 / (1 + endBody);
    const narrowPick = 1 / (1 + pickBody);
    const endLight = 1 + noises.warp.fibres[pixel] + endBody / 3;
    const pickLight = 1 + noises.weft.fibres[pixel] + pickBody / 3;
    let [light, red, green, blue] = [0, 0, 0, 0];
    for (let down = 0; down < samples; down++) {
      const picks = (top + ((down + 0.5) / samples) * mmPerPixelY) / pickPitch;
      const pick = Math.floor(picks);
      const v = stepAt((2 * (picks - pick) - 1) * narrowPick);
      const homePick = wrapped(pick, pickLoop);
      const pickTone = pickTones[homePick] * pickLight;
      for (let across = 0; across < samples; across++) {
        const ends = (left + ((across + 0.5) / samples) * mmPerPixelX) / endPitch;
        const end = Math.floor(ends);
        const u = stepAt((2 * (ends - end) - 1) * narrowEnd);
        const at = (wrapped(end + pick, weave) * STEPS + v) * STEPS + u;
        const share = shares[at];
        const homeEnd = wrapped(end, endLoop);
        const endTone = endTones[homeEnd] * endLight;
        const onEnd = 3 * wrapped(homeEnd + endAt[at], endLoop);
        const onPick = 3 * wrapped(homePick + pickAt[at], pickLoop);
        light += shades[at] * (share * endTone + (1 - share) * pickTone);
        red += share * endColours[onEnd] + (1 - share) * pickColours[onPick];
        green += share * endColours[onEnd + 1] + (1 - share) * pickColours[onPick + 1];
        blue += share * endColours[onEnd + 2] + (1 - share) * pickColours[onPick + 2];
      }
    }
    const to = place + pixel;
    shade[to] = Math.max(0, light * part);
    tint[4 * to] = red * part;
    tint[4 * to + 1] = green * part;
    tint[4 * to + 2] = blue * part;
    tint[4 * to + 3] = dye;
  }
}

/** Threads are counted from the corner of the box, so few lie before it. */
function wrapped(thread: number, count: number): number {
  if (thread >= 0 && thread < count) return thread;
  const rest = thread % count;
  return rest < 0 ? rest + count : rest;
}

/** The step of the tables at -1..1 of a crossing. */
function stepAt(place: number): number {
  const step = Math.floor(((place + 1) / 2) * STEPS);
  return step < 0 ? 0 : step >= STEPS ? STEPS - 1 : step;
}

function openNoises(set: ThreadSet, { mmPerPixelX, mmPerPixelY }: Band, count: number): RowNoises {
  const onPixels = (noise: FractalNoise) => fractalOnPixels(noise, mmPerPixelX, mmPerPixelY);
  const noises = [onPixels(set.body), onPixels(set.fibres), onPixels(set.straying)];
  const rows = noises.map(() => new Float32Array(count));
  const [body, fibres, straying] = rows;
  return {
    body,
    fibres,
    straying,
    fill(x0, y, length) {
      noises.forEach((noise, index) => {
        rows[index].fill(0);
        addFractalRow(noise, x0, mmPerPixelX, y, 1, rows[index], length);
      });
    },
  };
}
