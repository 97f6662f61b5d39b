/** The whole multiple of `step` nearest to a value, at least one step. */
export function nearestMultiple(value: number, step: number): number {
  return Math.max(1, Math.round(value / step)) * step;
}
