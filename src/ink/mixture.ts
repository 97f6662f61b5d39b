/** How many inks of a card a pixel is a mix of, at most. */
export const MIXED_INKS = 3;

/** The whole of a pixel, as amounts say it. */
export const WHOLE = 65_535;

/**
 * A run of pixels as mixes of a card's inks: of each pixel three inks and how much of each, in linear light. The
 * colour of a pixel is the sum of its inks' linear colours by their amounts, which are areas as a printer has them:
 * half covered is half the light of each.
 */
export interface Mixture {
  /** `3 * pixels` places in the card's `inks`, the greatest amount first. */
  readonly inks: Uint8Array;
  /** `3 * pixels` amounts; the three of a pixel add up to `WHOLE`. */
  readonly amounts: Uint16Array;
}

/** Room for the mixture of so many pixels. */
export function blankMixture(pixels: number): Mixture {
  return { inks: new Uint8Array(MIXED_INKS * pixels), amounts: new Uint16Array(MIXED_INKS * pixels) };
}
