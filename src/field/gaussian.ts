import { filterField } from './fourier.ts';
import type { PeriodicField } from './periodic.ts';
import { requirePositive } from './require.ts';

/**
 * The field under a Gaussian blur that knows no seam: each value becomes the mean of all values of the
 * plane, weighted by their distance. The sum is unchanged.
 *
 * By the exact multiplier exp(-2*pi^2*sigma^2*f^2) of each wave, so a wide blur costs no more than a
 * narrow one. It is the heat equation's solution after a time sigma^2 / (2 * diffusivity). A blur much
 * narrower than a cell has no Gaussian to show and rings beside a jump.
 *
 * @param sigma Standard deviation, mm; 0 or more.
 */
export function gaussianBlur(field: PeriodicField, sigma: number): PeriodicField {
  if (sigma !== 0) requirePositive(sigma, 'the width of a blur');
  const rate = -2 * (Math.PI * sigma) ** 2;
  return filterField(field, (fx, fy) => Math.exp(rate * (fx * fx + fy * fy)));
}
