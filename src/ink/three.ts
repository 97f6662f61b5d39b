import { decodeSrgb } from '../colour/srgb.ts';
import { createEyeMetric } from './eye-metric.ts';

/** The first and second ink of each of the three pairs. */
export const PAIR_ENDS = [
  [0, 1],
  [0, 2],
  [1, 2],
] as const;

/** How a colour lies to three inks: distances of the eye's metric, about 1 is just seen. */
export interface Three {
  /** Of each ink. */
  readonly alone: Float64Array;
  /** Of each pair's straight line of light, and of that or the straight line between encoded values. */
  readonly light: Float64Array;
  readonly near: Float64Array;
  /** Of each pair the share of its second ink, 0..1, where the line of light comes nearest; how long it is, squared. */
  readonly share: Float64Array;
  readonly span: Float64Array;
  /** The shares of the three where the colour stands over their triangle. */
  readonly inside: Float64Array;
  /** Sets the colour: levels of the eye's metric. */
  aim(red: number, green: number, blue: number): void;
  /** Measures the pairs of three inks, by their places. */
  measure(i: number, j: number, k: number): void;
  /** Then the distance of their triangle, where the colour stands over it (`inside` is filled); below 0 where not. */
  triangle(): number;
}

const SIX = 6;

/** @param colours Encoded sRGB of all inks, 0..1, three numbers each. */
export function createThree(colours: Float64Array): Three {
  const count = colours.length / 3;
  const metric = createEyeMetric();
  const { linear, encoded, ofLight, ofEncoded } = metric;
  const lights = colours.map((value) => decodeSrgb(value));
  /** Where each ink stands as seen from the colour, by light and by encoded values. */
  const seen = new Float64Array(SIX * count);
  const stamps = new Float64Array(count);
  let stamp = 0;
  const [alone, light, near] = [new Float64Array(3), new Float64Array(3), new Float64Array(3)];
  const [share, span, inside] = [new Float64Array(3), new Float64Array(3), new Float64Array(3)];
  /** Dot products: i i, j j, k k, i j, i k, j k. */
  const dots = new Float64Array(SIX);
  const three = new Int32Array(3);

  const look = (ink: number): void => {
    if (stamps[ink] === stamp) return;
    stamps[ink] = stamp;
    const from = 3 * ink;
    const to = SIX * ink;
    const r = lights[from] - linear[0];
    const g = lights[from + 1] - linear[1];
    const b = lights[from + 2] - linear[2];
    seen[to] = ofLight[0] * r + ofLight[1] * g + ofLight[2] * b;
    seen[to + 1] = ofLight[3] * r + ofLight[4] * g + ofLight[5] * b;
    seen[to + 2] = ofLight[6] * r + ofLight[7] * g + ofLight[8] * b;
    const s = colours[from] - encoded[0];
    const t = colours[from + 1] - encoded[1];
    const u = colours[from + 2] - encoded[2];
    seen[to + 3] = ofEncoded[0] * s + ofEncoded[1] * t + ofEncoded[2] * u;
    seen[to + 4] = ofEncoded[3] * s + ofEncoded[4] * t + ofEncoded[5] * u;
    seen[to + 5] = ofEncoded[6] * s + ofEncoded[7] * t + ofEncoded[8] * u;
  };

  const dot = (i: number, j: number): number => {
    const a = SIX * i;
    const b = SIX * j;
    return seen[a] * seen[b] + seen[a + 1] * seen[b + 1] + seen[a + 2] * seen[b + 2];
  };

  const measurePair = (pair: number, i: number, j: number, ii: number, jj: number, ij: number): void => {
    const length = ii + jj - 2 * ij;
    const part = shareOf(ii - ij, length);
    const away = Math.max(0, ii - part * (2 * (ii - ij) - part * length));
    const a = SIX * i + 3;
    const b = SIX * j + 3;
    const x = seen[a];
    const y = seen[a + 1];
    const z = seen[a + 2];
    const dx = seen[b] - x;
    const dy = seen[b + 1] - y;
    const dz = seen[b + 2] - z;
    const start = x * x + y * y + z * z;
    const along = -(x * dx + y * dy + z * dz);
    const whole = dx * dx + dy * dy + dz * dz;
    const other = shareOf(along, whole);
    const awayEncoded = Math.max(0, start - other * (2 * along - other * whole));
    share[pair] = part;
    span[pair] = length;
    light[pair] = Math.sqrt(away);
    near[pair] = Math.sqrt(Math.min(away, awayEncoded));
  };

  return {
    ...{ alone, light, near, share, span, inside },
    aim(red, green, blue) {
      metric.at(red, green, blue);
      stamp++;
    },
    measure(i, j, k) {
      three[0] = i;
      three[1] = j;
      three[2] = k;
      look(i);
      look(j);
      look(k);
      const ii = dot(i, i);
      const jj = dot(j, j);
      const kk = dot(k, k);
      const ij = dot(i, j);
      const ik = dot(i, k);
      const jk = dot(j, k);
      dots[0] = ii;
      dots[1] = jj;
      dots[2] = kk;
      dots[3] = ij;
      dots[4] = ik;
      dots[5] = jk;
      alone[0] = Math.sqrt(ii);
      alone[1] = Math.sqrt(jj);
      alone[2] = Math.sqrt(kk);
      measurePair(0, i, j, ii, jj, ij);
      measurePair(1, i, k, ii, kk, ik);
      measurePair(2, j, k, jj, kk, jk);
    },
    triangle() {
      const ii = dots[0];
      const jj = dots[1];
      const kk = dots[2];
      const ij = dots[3];
      const ik = dots[4];
      const jk = dots[5];
      const uu = ii + jj - 2 * ij;
      const vv = ii + kk - 2 * ik;
      const uv = ii - ij - ik + jk;
      const u = ii - ij;
      const v = ii - ik;
      const area = uu * vv - uv * uv;
      if (!(area > 1e-9 * uu * vv)) return -1;
      const b = (vv * u - uv * v) / area;
      const c = (uu * v - uv * u) / area;
      if (b < 0 || c < 0 || b + c > 1) return -1;
      inside[0] = 1 - b - c;
      inside[1] = b;
      inside[2] = c;
      return Math.sqrt(Math.max(0, ii - b * u - c * v));
    },
  };
}

function shareOf(along: number, length: number): number {
  if (!(length > 1e-12) || along <= 0) return 0;
  return along >= length ? 1 : along / length;
}
