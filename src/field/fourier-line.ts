import FFT from 'fft.js';

/**
 * Replaces the complex numbers z of a line (real and imaginary parts by turns) by the sums over x of
 * z[x] * exp(-2*pi*i * k*x / size).
 */
export type LineTransform = (line: Float64Array) => void;

/** Up to this odd factor a direct sum over the parts is faster than going through three longer transforms. */
const LARGEST_ODD_FACTOR = 31;

/**
 * The transform of a line of any length. Fast for a power of two, nearly so for a power of two times a
 * small odd number, several times slower for the others.
 */
export function lineTransform(size: number): LineTransform {
  let odd = size;
  while (odd % 2 === 0) odd /= 2;
  if (odd === 1) return ofPowerOfTwo(size);
  return odd <= LARGEST_ODD_FACTOR ? ofOddMultiple(size, odd) : ofAnySize(size);
}

/**
 * The whole number nearest to `count` whose transform is fast: 1, 3 or 5 times a power of two, from 4 up never
 * more than a seventh off. For the rounding of `fieldShape` and `emptyField`.
 */
export function fastCount(count: number): number {
  let best = 1;
  for (const odd of [1, 3, 5]) {
    const power = 2 ** Math.max(0, Math.round(Math.log2(count / odd)));
    if (Math.abs(odd * power - count) < Math.abs(best - count)) best = odd * power;
  }
  return best;
}

function ofPowerOfTwo(size: number): LineTransform {
  if (size === 1) return () => {};
  const engine = new FFT(size);
  const out = new Float64Array(2 * size);
  return (line) => {
    engine.transform(out, line);
    line.set(out);
  };
}

/** J. W. Cooley and J. W. Tukey (1965): `odd` interleaved lines of a power of two, then `odd`-point sums across them. */
function ofOddMultiple(size: number, odd: number): LineTransform {
  const length = size / odd;
  const part = ofPowerOfTwo(length);
  const parts = Array.from({ length: odd }, () => new Float64Array(2 * length));
  const { cosines, sines } = turns(size);
  const re = new Float64Array(odd);
  const im = new Float64Array(odd);
  return (line) => {
    for (let n = 0; n < odd; n++) {
      const to = parts[n];
      for (let k = 0; k < length; k++) {
        to[2 * k] = line[2 * (k * odd + n)];
        to[2 * k + 1] = line[2 * (k * odd + n) + 1];
      }
      part(to);
    }
    for (let k = 0; k < length; k++) {
      for (let n = 0; n < odd; n++) {
        const [c, s] = [cosines[n * k], sines[n * k]];
        re[n] = parts[n][2 * k] * c - parts[n][2 * k + 1] * s;
        im[n] = parts[n][2 * k] * s + parts[n][2 * k + 1] * c;
      }
      for (let m = 0; m < odd; m++) {
        let sumRe = 0;
        let sumIm = 0;
        for (let n = 0; n < odd; n++) {
          const turn = ((n * m) % odd) * length;
          sumRe += re[n] * cosines[turn] - im[n] * sines[turn];
          sumIm += re[n] * sines[turn] + im[n] * cosines[turn];
        }
        line[2 * (k + m * length)] = sumRe;
        line[2 * (k + m * length) + 1] = sumIm;
      }
    }
  };
}

/** L. I. Bluestein (1970): any length as a convolution with a chirp, by transforms of a power of two. */
function ofAnySize(size: number): LineTransform {
  let length = 1;
  while (length < 2 * size - 1) length *= 2;
  const transform = ofPowerOfTwo(length);
  const { cosines, sines } = turns(2 * size);
  // exp(-pi*i*n^2/size); the square is taken modulo 2*size, where the turn is the same, to keep its digits.
  const turnOf = (n: number) => (n * n) % (2 * size);
  const chirp = new Float64Array(2 * length);
  for (let n = 0; n < size; n++) {
    const turn = turnOf(n);
    for (const at of n === 0 ? [0] : [n, length - n]) {
      chirp[2 * at] = cosines[turn];
      chirp[2 * at + 1] = -sines[turn];
    }
  }
  transform(chirp);
  const work = new Float64Array(2 * length);
  return (line) => {
    work.fill(0);
    for (let n = 0; n < size; n++) {
      const turn = turnOf(n);
      work[2 * n] = line[2 * n] * cosines[turn] - line[2 * n + 1] * sines[turn];
      work[2 * n + 1] = line[2 * n] * sines[turn] + line[2 * n + 1] * cosines[turn];
    }
    transform(work);
    for (let n = 0; n < 2 * length; n += 2) {
      const re = work[n] * chirp[n] - work[n + 1] * chirp[n + 1];
      const im = work[n] * chirp[n + 1] + work[n + 1] * chirp[n];
      // Conjugated, so that the same transform takes it back.
      work[n] = re / length;
      work[n + 1] = -im / length;
    }
    transform(work);
    for (let n = 0; n < size; n++) {
      const turn = turnOf(n);
      line[2 * n] = work[2 * n] * cosines[turn] + work[2 * n + 1] * sines[turn];
      line[2 * n + 1] = work[2 * n] * sines[turn] - work[2 * n + 1] * cosines[turn];
    }
  };
}

/** exp(-2*pi*i*k/size) for k from 0 to size - 1. */
function turns(size: number): { cosines: Float64Array; sines: Float64Array } {
  const cosines = new Float64Array(size);
  const sines = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    cosines[k] = Math.cos((2 * Math.PI * k) / size);
    sines[k] = -Math.sin((2 * Math.PI * k) / size);
  }
  return { cosines, sines };
}
