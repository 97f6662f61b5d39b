/** Three numbers of linear light, red, green and blue, each 0..1. */
export type Light3 = readonly [number, number, number];

/**
 * The colour of one ink printed over another. One that covers hides what lies under it. Of one that does not,
 * light passes both: what each lets through of the ground is multiplied.
 *
 * @param over The upper ink on the ground alone.
 * @param under What it falls on, on that ground.
 */
export function overprint(over: Light3, covers: boolean, under: Light3, ground: Light3): Light3 {
  if (covers) return over;
  const through = (channel: 0 | 1 | 2) =>
    ground[channel] > 0 ? Math.min(1, (over[channel] * under[channel]) / ground[channel]) : 0;
  return [through(0), through(1), through(2)];
}

/**
 * What a tone of dots reflects: `share` of the light of solid ink, the rest of the ground. With `n` = 1 by A.
 * Murray (1936, after E. R. Davies); greater `n`, by J. A. C. Yule and W. J. Nielsen (1951), counts in that light
 * spreads inside the cloth or paper and is caught under the dots. `n` is 1 to 2 for most; Pearson (TAGA
 * Proceedings 1981) advises 1.7 where nothing is known.
 *
 * @param share Area of the dots, 0..1.
 * @param solid Reflectance of solid ink, 0..1, as is `ground`.
 */
export function toneReflectance(share: number, solid: number, ground: number, n = 1): number {
  return ((1 - share) * ground ** (1 / n) + share * solid ** (1 / n)) ** n;
}

/** The area of dots that a reflectance comes from: the inverse of `toneReflectance`. */
export function dotShare(reflectance: number, solid: number, ground: number, n = 1): number {
  const [tone, full, bare] = [reflectance, solid, ground].map((value) => value ** (1 / n));
  return full === bare ? 0 : Math.min(1, Math.max(0, (bare - tone) / (bare - full)));
}
