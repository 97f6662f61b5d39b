/** What the tests of effects measure their planes with. */

export function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum / values.length;
}

/** Pearson's correlation of two lists. */
export function correlation(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const [p, q] = [meanOf(a), meanOf(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k++) {
    ab += (a[k] - p) * (b[k] - q);
    aa += (a[k] - p) ** 2;
    bb += (b[k] - q) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

/** The means of squares of `factor` x `factor` pixels of a plane of one channel; what is left over is left out. */
export function boxFiltered(plane: Float32Array, width: number, factor: number): Float32Array {
  const columns = Math.floor(width / factor);
  const rows = Math.floor(plane.length / width / factor);
  const means = new Float32Array(columns * rows);
  for (let y = 0; y < rows * factor; y++) {
    for (let x = 0; x < columns * factor; x++) {
      means[Math.floor(y / factor) * columns + Math.floor(x / factor)] += plane[y * width + x] / factor ** 2;
    }
  }
  return means;
}
