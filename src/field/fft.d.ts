declare module 'fft.js' {
  /** Radix-4 transform of a power of two above 1. */
  export default class FFT {
    constructor(size: number);
    /** Both hold `size` complex numbers, real and imaginary parts by turns; they may not be the same. */
    transform(out: Float64Array, data: Float64Array): void;
  }
}
