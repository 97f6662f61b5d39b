/** The one light that all raised surfaces of a render stand in. */
export interface Light {
  /** Where it comes from, degrees: 0 the right, 90 below, 180 the left, 270 above. */
  readonly direction: number;
  /** How high it stands over the cloth, degrees: 90 is straight above, and the lower, the more every unevenness shows. */
  readonly elevation: number;
  /** How much the flanks that face it gleam, 0 chalk to 1 satin. */
  readonly gloss: number;
}

/** What each number of a light may be. */
export const LIGHT_RANGES = {
  direction: [0, 360],
  elevation: [5, 90],
  gloss: [0, 1],
} as const satisfies { readonly [Name in keyof Light]: readonly [low: number, high: number] };

/** From the upper left, as pictures have it, and raking: tooth of 25 micrometres then shows as it does to the eye. */
export const DEFAULT_LIGHT: Light = Object.freeze({ direction: 225, elevation: 20, gloss: 0 });
