import { select } from '../field/select.ts';

/**
 * The median of a few numbers, none of which is NaN; of an even count the mean of the two in the middle. Puts
 * them into another order.
 */
export function medianOf(values: Float32Array): number {
  const middle = values.length >> 1;
  const upper = select(values, middle);
  if (values.length % 2 === 1) return upper;
  let lower = values[0];
  for (let k = 1; k < middle; k++) if (values[k] > lower) lower = values[k];
  return (lower + upper) / 2;
}
