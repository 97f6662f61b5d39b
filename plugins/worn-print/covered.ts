/**
 * The share of a pixel that a line covers.
 *
 * @param away mm from the middle of the line to that of the pixel.
 * @param half Half of the line's width, mm.
 * @param soft Half of the pixel's, mm.
 */
export function covered(away: number, half: number, soft: number): number {
  return Math.max(0, (Math.min(away + soft, half) - Math.max(away - soft, -half)) / (2 * soft));
}
