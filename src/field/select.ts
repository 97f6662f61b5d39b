/**
 * Brings the value that sorting would bring to place `k` (from 0) there, none larger before it and none smaller
 * behind, and returns it; no value is NaN. By parting them round a middle one again and again (Hoare 1961), in a
 * third of the time that sorting takes.
 */
export function select(values: Float32Array | Float64Array, k: number): number {
  let left = 0;
  let right = values.length - 1;
  while (left < right) {
    const pivot = values[(left + right) >> 1];
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i > j) break;
      const value = values[i];
      values[i++] = values[j];
      values[j--] = value;
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  return values[k];
}
