/**
 * Yarn counts. Tex is grams per kilometre; the older systems count lengths per weight:
 * cotton (Ne) hanks of 840 yd per lb, linen (lea) 300 yd per lb, worsted 560 yd per lb, metric (Nm)
 * km per kg. The yard is 0.9144 m and the pound 453.59237 g (1959 agreement).
 */
export const YARN_SYSTEMS = ['tex', 'cotton', 'linen', 'worsted', 'metric', 'denier'] as const;
export type YarnSystem = (typeof YARN_SYSTEMS)[number];

const GRAMS_PER_POUND = 453.59237;
const METRES_PER_YARD = 0.9144;

const texOfHank = (yards: number) => (1000 * GRAMS_PER_POUND) / (yards * METRES_PER_YARD);

/** Tex of a yarn whose count in `system` is `count` (> 0). */
export function texOf(count: number, system: YarnSystem): number {
  switch (system) {
    case 'tex':
      return count;
    case 'cotton':
      return texOfHank(840) / count;
    case 'linen':
      return texOfHank(300) / count;
    case 'worsted':
      return texOfHank(560) / count;
    case 'metric':
      return 1000 / count;
    case 'denier':
      return count / 9;
  }
}

/** g/cm3 of the flax fibre itself. */
export const FLAX_DENSITY = 1.5;
/** The share of a linen yarn's section that is fibre; a line-spun, wet-spun yarn is packed closely. */
export const FLAX_PACKING = 0.62;

/**
 * The diameter (mm) of a round yarn: the circle that holds its fibre at this packing,
 * sqrt(4 tex / (1000 pi density packing)).
 */
export function yarnDiameter(tex: number, density = FLAX_DENSITY, packing = FLAX_PACKING): number {
  return Math.sqrt((4e-3 * tex) / (Math.PI * density * packing));
}

/**
 * Peirce's rule for cotton, d = 1 / (28 sqrt(Ne)) inch (J. Text. Inst. 28, T45, 1937), in mm. Flax is
 * denser, so it is a check on `yarnDiameter`, not a replacement.
 */
export function peirceDiameter(tex: number): number {
  return 25.4 / (28 * Math.sqrt(texOf(1, 'cotton') / tex));
}

/** The share of the plane that two crossing sets of threads cover, each covering its own share. */
export function clothCover(warp: number, weft: number): number {
  return warp + weft - warp * weft;
}
