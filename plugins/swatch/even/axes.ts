/**
 * Colours along axes of their own: the first where they differ most. The three numbers of a colour hang together;
 * along these axes they hardly do, and may be taken one by one (Heitz and Neyret 2018, 4.1).
 */
export interface Axes {
  /** The mean of the planes. */
  readonly mean: readonly number[];
  /** Row by row, an axis each, of length 1: one of one number, or three of three. */
  readonly rows: readonly (readonly number[])[];
}

/** One number in so many is looked at. */
const SAMPLES = 200_000;

export function axesOf(planes: readonly Float32Array[]): Axes {
  if (planes.length === 1) return { mean: [0], rows: [[1]] };
  const step = Math.max(1, Math.floor(planes[0].length / SAMPLES));
  const mean = planes.map((plane) => meanOf(plane, step));
  const spread = planes.map((first, a) =>
    planes.map((second, b) => {
      let sum = 0;
      for (let k = 0; k < first.length; k += step) sum += (first[k] - mean[a]) * (second[k] - mean[b]);
      return sum;
    }),
  );
  return { mean, rows: axesOfSpread(spread) };
}

function meanOf(plane: Float32Array, step: number): number {
  let [sum, count] = [0, 0];
  for (let k = 0; k < plane.length; k += step, count++) sum += plane[k];
  return sum / count;
}

/** Planes along axes. */
export function alongAxes(planes: readonly Float32Array[], { mean, rows }: Axes): Float32Array[] {
  if (planes.length === 1) return [planes[0]];
  const [red, green, blue] = planes;
  return rows.map(([r, g, b]) => {
    const shift = r * mean[0] + g * mean[1] + b * mean[2];
    return red.map((value, k) => r * value + g * green[k] + b * blue[k] - shift);
  });
}

/** The axes of a symmetric matrix by Jacobi's turns, the longest first, each with its greatest number above 0. */
function axesOfSpread(spread: readonly (readonly number[])[]): number[][] {
  const m = spread.map((row) => [...row]);
  const v: number[][] = m.map((_, a) => m.map((_, b) => (a === b ? 1 : 0)));
  for (let turn = 0; turn < 24; turn++) {
    for (const [p, q] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ]) {
      if (Math.abs(m[p][q]) < 1e-15) continue;
      const theta = (m[q][q] - m[p][p]) / (2 * m[p][q]);
      const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
      const c = 1 / Math.sqrt(t * t + 1);
      const s = t * c;
      for (let k = 0; k < 3; k++) {
        [m[k][p], m[k][q]] = [c * m[k][p] - s * m[k][q], s * m[k][p] + c * m[k][q]];
      }
      for (let k = 0; k < 3; k++) {
        [m[p][k], m[q][k]] = [c * m[p][k] - s * m[q][k], s * m[p][k] + c * m[q][k]];
        [v[p][k], v[q][k]] = [c * v[p][k] - s * v[q][k], s * v[p][k] + c * v[q][k]];
      }
    }
  }
  return [0, 1, 2]
    .sort((a, b) => m[b][b] - m[a][a])
    .map((a) => {
      const greatest = v[a].reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most));
      return v[a].map((value) => (greatest < 0 ? -value : value));
    });
}
