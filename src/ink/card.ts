/** One colour of a shade card: the ground that is printed on, or an ink that is printed on it with one screen. */
export interface Ink {
  /** What it is called; no two of a card alike. */
  readonly name: string;
  /** `ground` for the cloth or paper itself (one at the most), `ink` for what a screen prints. */
  readonly kind: 'ground' | 'ink';
  /** Its colour at full strength on the ground: sRGB bytes, 0..255. */
  readonly colour: readonly [number, number, number];
  /**
   * Whether it hides what lies under it, as pigment and body colour do. One that does not (a dye) lets it through:
   * light passes both.
   */
  readonly covers: boolean;
  /** What a person has to say of it, e.g. a mill's own number; may be empty. */
  readonly note: string;
}

/**
 * The inks that a design is printed with. The order of `inks` is the order of printing: the ground first, then
 * each ink over those before it.
 */
export interface ShadeCard {
  /** What the card is called, e.g. the design's name. */
  readonly name: string;
  readonly inks: readonly Ink[];
}

/** The colour of what is printed on: white where the card has no ground. */
export function groundColour({ inks }: ShadeCard): Ink['colour'] {
  return inks.find(({ kind }) => kind === 'ground')?.colour ?? [255, 255, 255];
}

/** The inks of a card that a screen prints, in order. */
export function printedInks(card: ShadeCard): readonly Ink[] {
  return card.inks.filter((ink) => ink.kind === 'ink');
}
