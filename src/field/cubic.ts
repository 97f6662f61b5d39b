/**
 * The cubic through four values at even distances, between the second and the third: Catmull and Rom,
 * *A class of local interpolating splines* (1974), tension 1/2; Keys, *Cubic convolution
 * interpolation* (1981), a = -1/2.
 *
 * @param u The part of the way from `b` to `c`, 0..1.
 */
export function cubic(a: number, b: number, c: number, d: number, u: number): number {
  return b + 0.5 * u * (c - a + u * (2 * a - 5 * b + 4 * c - d + u * (3 * (b - c) + d - a)));
}

/** The shares of the four values in `cubic`, each times `gain`. Written into `shares`. */
export function cubicShares(u: number, shares: Float64Array, gain = 1): Float64Array {
  shares[0] = gain * 0.5 * u * (u * (2 - u) - 1);
  shares[1] = gain * (1 + 0.5 * u * u * (3 * u - 5));
  shares[2] = gain * 0.5 * u * (1 + u * (4 - 3 * u));
  shares[3] = gain * 0.5 * u * u * (u - 1);
  return shares;
}
