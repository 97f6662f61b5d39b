import { type Band, modulo, stripsOf, type TextureLayer } from 'tenter';
import type { CheckModel, ThreadSet } from './model.ts';

/**
 * Draws pixels from the means of the crossings they cover, each weighed by the area it shares with the pixel. No
 * thread is drawn, so none can beat against the pixels; the colours are mixed as the eye mixes them.
 */
export function paintFar(model: CheckModel, band: Band, layer: TextureLayer<'shade' | 'tint'>): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  for (const { x0, y, skip, count, height, at } of stripsOf(band, model.lattice)) {
    const columns = Array.from({ length: count - skip }, (_, column) => {
      const left = x0 + (skip + column - 0.5) * mmPerPixelX;
      return coveredBy(model.warp, left, left + mmPerPixelX);
    });
    for (let row = 0; row < height; row++) {
      const top = (y + row) * mmPerPixelY;
      const picks = coveredBy(model.weft, top, top + mmPerPixelY);
      columns.forEach((ends, column) => {
        drawPixel(model, ends, picks, layer, at + row * band.width + column);
      });
    }
  }
}

/** The threads that a stretch covers, from `first` on, with the share of the stretch that each takes. */
interface Covered {
  readonly first: number;
  readonly shares: readonly number[];
}

function coveredBy({ pitch }: ThreadSet, from: number, to: number): Covered {
  const first = Math.floor(from / pitch);
  const last = Math.floor(to / pitch);
  const shares = Array.from({ length: last - first + 1 }, (_, k) => {
    const start = Math.max(from, (first + k) * pitch);
    return Math.max(0, Math.min(to, (first + k + 1) * pitch) - start) / (to - from);
  });
  return { first, shares };
}

function drawPixel(
  { crossings: { means }, weave, warp, weft, dye }: CheckModel,
  ends: Covered,
  picks: Covered,
  { shade, tint }: TextureLayer<'shade' | 'tint'>,
  place: number,
): void {
  let light = 0;
  const sum = [0, 0, 0];
  for (let down = 0; down < picks.shares.length; down++) {
    const pick = picks.first + down;
    const pickTone = weft.tones[modulo(pick, weft.tones.length)];
    for (let across = 0; across < ends.shares.length; across++) {
      const end = ends.first + across;
      const part = picks.shares[down] * ends.shares[across];
      const crossing = modulo(end + pick, weave);
      const onEnd = addColours(warp, end, means.ends, crossing, part, sum);
      const onPick = addColours(weft, pick, means.picks, crossing, part, sum);
      const endTone = warp.tones[modulo(end, warp.tones.length)];
      light += means.shade[crossing] * (onEnd * endTone + onPick * pickTone);
    }
  }
  shade[place] = light;
  tint.set(sum, 4 * place);
  tint[4 * place + 3] = dye;
}

/** Adds the colours of a thread and its neighbours as they show at a crossing, and returns how much of it they take. */
function addColours(
  { colours }: ThreadSet,
  thread: number,
  means: Float64Array,
  crossing: number,
  part: number,
  sum: number[],
): number {
  let taken = 0;
  for (let offset = -1; offset <= 1; offset++) {
    const share = part * means[3 * crossing + offset + 1];
    if (share === 0) continue;
    const at = 3 * modulo(thread + offset, colours.length / 3);
    for (let channel = 0; channel < 3; channel++) sum[channel] += share * colours[at + channel];
    taken += share;
  }
  return taken;
}
