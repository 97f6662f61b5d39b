import { encodeSrgb } from '../colour/srgb.ts';
import type { ShadeCard } from './card.ts';
import { inkLights } from './linear-inks.ts';
import { type Light3, overprint } from './overprint.ts';

/** How a texture is printed within counted inks. */
export type TextureWay = 'own' | 'bare' | 'there';

/** One colour of a screened picture, and what prints it. */
export interface ScreenColour {
  /** sRGB bytes. */
  readonly colour: readonly [number, number, number];
  /** Places in the card's `inks`, in order of printing; the ground alone, or none, where nothing prints. */
  readonly inks: readonly number[];
}

/** What a flat may be turned into, dot by dot. */
export interface ScreenChoice {
  /** The place of the colour among `colours`. */
  readonly code: number;
  readonly light: Light3;
}

/** All colours that a screened picture may have. */
export interface ScreenColours {
  readonly colours: readonly ScreenColour[];
  /** Linear light of each. */
  readonly lights: readonly Light3[];
  /** Of each ink of the card as a flat: its own colour's place is the ink's place in the card. */
  readonly choices: readonly (readonly ScreenChoice[])[];
}

const WHITE: Light3 = [1, 1, 1];

/**
 * The colours that a card's inks make: each alone on the ground, and where a texture's dots fall on a flat.
 *
 * @param texture The places of the inks that print the texture; of `bare` and `there` it is not asked.
 */
export function screenColours(card: ShadeCard, way: TextureWay, texture: readonly number[]): ScreenColours {
  const lights = inkLights(card);
  const colours: ScreenColour[] = card.inks.map(({ colour }, ink) => ({ colour, inks: [ink] }));
  const groundPlace = card.inks.findIndex(({ kind }) => kind === 'ground');
  const ground = groundPlace < 0 ? WHITE : lights[groundPlace];
  const flats = card.inks.length;
  let bare = groundPlace;
  if (bare < 0 && way !== 'own') {
    bare = colours.length;
    colours.push({ colour: [255, 255, 255], inks: [] });
    lights.push(WHITE);
  }
  /** The place of `ink` printed over `flat`. */
  const over = (ink: number, flat: number): number => {
    if (ink === bare || card.inks[ink].covers || flat === groundPlace) return ink;
    const light = overprint(lights[ink], false, lights[flat], ground);
    colours.push({ colour: bytesOf(light), inks: [flat, ink].sort((a, b) => a - b) });
    lights.push(light);
    return colours.length - 1;
  };
  const printed = card.inks.flatMap(({ kind }, ink) => (kind === 'ink' ? [ink] : []));
  const dots = { own: texture, bare: [bare], there: [bare, ...printed] }[way];
  const choices = Array.from({ length: flats }, (_, flat) =>
    dots
      .filter((ink) => ink !== flat)
      .map((ink) => over(ink, flat))
      .map((code) => ({ code, light: lights[code] })),
  );
  return { colours, lights, choices };
}

function bytesOf(light: Light3): [number, number, number] {
  const byte = (value: number) => Math.round(255 * encodeSrgb(value));
  return [byte(light[0]), byte(light[1]), byte(light[2])];
}
