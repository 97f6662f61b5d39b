import type { ScreenColours } from './screen-colours.ts';

/** Finds by what dots a flat comes nearest to a light. */
export interface ToneFinder {
  /** The tone of dots on a flat, 0..1; `code` then says of which colour. */
  find(flat: number, red: number, green: number, blue: number): number;
  /** Place of the dots' colour among the colours; the flat itself where it has no choice. */
  code(): number;
  /** What is left of the difference at that tone, squared and weighted. */
  rest(): number;
}

/** How much a difference of linear light counts, as the eye has it: the roots of the channels' luminance. */
const WEIGHTS = [0.2126, 0.7152, 0.0722].map(Math.sqrt);

/** Of the colours that a flat may be turned into, the one whose dots come nearest, by least squares of linear light. */
export function openToneFinder({ lights, choices }: ScreenColours): ToneFinder {
  const ways = choices.map((list, flat) =>
    list.flatMap(({ code, light }) => {
      const way = WEIGHTS.map((weight, channel) => weight * (light[channel] - lights[flat][channel]));
      const length = way[0] ** 2 + way[1] ** 2 + way[2] ** 2;
      return length > 0 ? [{ code, r: way[0], g: way[1], b: way[2], length }] : [];
    }),
  );
  const [wr, wg, wb] = WEIGHTS;
  let chosen = 0;
  let least = 0;
  return {
    find(flat, red, green, blue) {
      const own = lights[flat];
      const r = wr * (red - own[0]);
      const g = wg * (green - own[1]);
      const b = wb * (blue - own[2]);
      chosen = flat;
      least = r * r + g * g + b * b;
      let best = 0;
      for (const way of ways[flat]) {
        const tone = Math.min(1, Math.max(0, (r * way.r + g * way.g + b * way.b) / way.length));
        const rest = (r - tone * way.r) ** 2 + (g - tone * way.g) ** 2 + (b - tone * way.b) ** 2;
        if (rest >= least) continue;
        least = rest;
        best = tone;
        chosen = way.code;
      }
      return best;
    },
    code: () => chosen,
    rest: () => least,
  };
}
