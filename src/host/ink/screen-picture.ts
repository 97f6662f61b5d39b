import { setImmediate } from 'node:timers/promises';
import { type Frame, type Samples, sharedSamples } from '../../colour/frame.ts';
import { hexOfBytes } from '../../colour/hex.ts';
import { linearTable } from '../../colour/samples.ts';
import { cancelled } from '../../effect/setting.ts';
import {
  artworkInks,
  blankMixture,
  carriedOver,
  createSquareSums,
  createUnmixer,
  openScreening,
  openToneFinder,
  pressCurve,
  printedInks,
  type ScreenColours,
  type ScreeningPlan,
  type SeenDifference,
  type ShadeCard,
  screenColours,
} from '../../ink/index.ts';
import type { Grid } from '../../repeat/grid.ts';
import { trimNumber } from '../../repeat/length.ts';
import { dotsOf, LEAST_DOT, type Screens } from './screens.ts';

/** One colour of the picture, as reports have it: every pixel is exactly one of them. */
export interface ScreenedColour {
  /** `#rrggbb`. */
  readonly colour: string;
  /** Names of the inks that print it, in order of printing; of bare ground the ground's, or none. */
  readonly inks: readonly string[];
  /** Of the picture, 0..1. */
  readonly share: number;
}

/** What a result of counted inks came to. Plain data. */
export interface ScreenedFacts {
  readonly card: string;
  readonly way: 'own' | 'bare' | 'there';
  /** Names of the inks that a screen prints. */
  readonly screens: readonly string[];
  /** Those that print the texture, where it has its own. */
  readonly textureInks?: readonly string[];
  readonly colours: readonly ScreenedColour[];
  readonly dots: string;
  /** From the picture in continuous tone, seen as one over squares of `overMm`. */
  readonly difference: SeenDifference & { readonly overMm: number };
  /** Share of the pixels whose colour the texture changed, 0..1. */
  readonly textured: number;
}

/** mm of the squares that are compared: one minute of arc, what an eye just parts, from two metres. */
const SEEN = 0.58;
const ROWS = 64;
/** Pixels at which the inks of a texture are tried. */
const TRIED = 20_000;

/**
 * A result again, of the card's inks and no more. It depends on the two pictures alone, band by band.
 *
 * @param artwork Laid out as the result is.
 * @throws Fault (usage) where the dots do not fit the grid; `cancelled` where the signal asks.
 */
export async function screenPicture(
  { artwork, result, grid }: { readonly artwork: Frame; readonly result: Frame; readonly grid: Grid },
  screens: Screens,
  signal?: AbortSignal,
): Promise<{ readonly frame: Frame; readonly facts: ScreenedFacts }> {
  const { card, wish } = screens;
  const { way = 'there', washes = 'hard', press } = wish;
  const { field, leastTone } = dotsOf(screens, grid);
  const flats = artworkInks(card, artwork.pixels, artwork.width);
  const texture = way === 'own' ? (screens.texture ?? [nearestInk(card, flats, artwork, result)]) : [];
  const colours = screenColours(card, way, texture);
  const plan: ScreeningPlan = {
    card,
    flats,
    colours,
    dots: field,
    press: pressCurve(press?.gain),
    leastTone,
    washes,
  };
  const { width, height } = result;
  const screening = openScreening(plan, width, height);
  const pixels = sharedSamples(4 * width * height, 8);
  const words = new Uint32Array(pixels.buffer);
  const painted = colours.colours.map(
    ({ colour }) => new Uint32Array(Uint8Array.of(...colour, 255).buffer)[0],
  );
  const counts = new Float64Array(painted.length);
  const side = Math.max(1, Math.round(SEEN / Math.max(grid.mmPerPixelX, grid.mmPerPixelY)));
  const sums = createSquareSums(width, height, side);
  const linear = linearTable(result.pixels);
  const laid = new Float64Array(3);
  for (let y = 0; y < height; ) {
    if (signal?.aborted) throw cancelled();
    const end = screening.endOf(y, ROWS);
    const codes = new Uint8Array((end - y) * width);
    const part = (samples: Samples) => samples.subarray(4 * y * width, 4 * end * width);
    const source = part(result.pixels);
    screening.screen(y, part(artwork.pixels), source, codes);
    for (let k = 0; k < codes.length; k++) {
      const code = codes[k];
      words[y * width + k] = painted[code];
      counts[code]++;
      for (let channel = 0; channel < 3; channel++) laid[channel] = linear[source[4 * k + channel]];
      sums.add(k % width, y + Math.floor(k / width), laid, colours.lights[code]);
    }
    y = end;
    await setImmediate();
  }
  const total = width * height;
  return {
    frame: { pixels, width, height },
    facts: {
      card: card.name,
      way,
      screens: printedInks(card).map(({ name }) => name),
      textureInks: way === 'own' ? texture.map((ink) => card.inks[ink].name) : undefined,
      colours: coloursOf(card, colours, counts, total),
      dots: dotWords(screens, field),
      difference: { ...sums.difference(), overMm: SEEN },
      textured: screening.changed() / total,
    },
  };
}

function coloursOf(
  card: ShadeCard,
  { colours }: ScreenColours,
  counts: Float64Array,
  total: number,
): ScreenedColour[] {
  return colours.flatMap(({ colour, inks }, code) =>
    counts[code] === 0
      ? []
      : [
          {
            colour: hexOfBytes(colour),
            inks: inks.map((ink) => card.inks[ink].name),
            share: counts[code] / total,
          },
        ],
  );
}

function dotWords({ wish }: Screens, field: ReturnType<typeof dotsOf>['field']): string {
  const least = `nothing finer than ${trimNumber(wish.press?.leastDot ?? LEAST_DOT, 3)} mm`;
  if (field.kind === 'scattered') return `scattered dots, ${least}`;
  const { asked, snapped } = field;
  const said = ({ perCm, angle }: typeof asked) =>
    `${trimNumber(perCm, 2)} per cm at ${trimNumber(angle, 1)} deg`;
  const shape = field.waves.length === 1 ? 'lines' : 'round dots';
  return `${shape} ${said(snapped)} (asked ${said(asked)}), ${least}`;
}

/** The ink whose dots bring the artwork nearest to the result, tried at some thousand pixels. */
function nearestInk(card: ShadeCard, flats: readonly number[], artwork: Frame, result: Frame): number {
  const places = card.inks.flatMap(({ kind }, ink) => (kind === 'ink' ? [ink] : []));
  const finders = places.map((ink) => openToneFinder(screenColours(card, 'own', [ink])));
  const { lights } = screenColours(card, 'own', []);
  const rests = new Float64Array(places.length);
  const unmixer = createUnmixer({ ...card, inks: flats.map((ink) => card.inks[ink]) });
  const mixture = blankMixture(1);
  const [before, after] = [linearTable(artwork.pixels), linearTable(result.pixels)];
  const count = result.width * result.height;
  const stride = Math.max(1, Math.floor(count / TRIED) | 1);
  for (let pixel = 0; pixel < count; pixel += stride) {
    unmixer.unmix(artwork.pixels.subarray(4 * pixel, 4 * pixel + 4), mixture);
    const flat = flats[mixture.inks[0]];
    const at = (channel: number) =>
      carriedOver(
        lights[flat][channel],
        before[artwork.pixels[4 * pixel + channel]],
        after[result.pixels[4 * pixel + channel]],
      );
    finders.forEach((finder, place) => {
      finder.find(flat, at(0), at(1), at(2));
      rests[place] += finder.rest();
    });
  }
  return places[rests.indexOf(Math.min(...rests))];
}
