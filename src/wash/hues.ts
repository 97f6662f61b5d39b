/** Pigments that are heavy and granulate, by the hue that they have beside the stain that they are mixed with. */
export const HEAVY_HUES = ['blue', 'earth', 'green', 'violet'] as const;
/** The name of one. */
export type HeavyHue = (typeof HEAVY_HUES)[number];

/**
 * What a heavy pigment holds back of red, green and blue light beyond what the whole paint does, as a share. Each sums
 * to 0: what it holds back more of one light, the stain holds back more of another.
 */
const HUES: Readonly<Record<HeavyHue, readonly [number, number, number]>> = {
  blue: [0.52, 0.02, -0.54],
  earth: [-0.5, 0.1, 0.4],
  green: [0.4, -0.48, 0.08],
  violet: [0.06, 0.44, -0.5],
};

/**
 * How much more paint of each channel there is per unit of heavy pigment: what `WashRows.parted` is multiplied by
 * to come to the plane `parting`.
 *
 * @param parting 0 is one ink, 1 parts strongly.
 */
export function partedHues(heavy: HeavyHue, parting: number): [number, number, number] {
  const [red, green, blue] = HUES[heavy];
  return [parting * red, parting * green, parting * blue];
}
