/**
 * Memory for numbers that are only needed until the next line is looked at: hundreds of lines would leave so much of it
 * behind that the collector is kept busy, and that pictures of 57 megapixels take a quarter more.
 */
export class Room {
  readonly #singles: Float32Array[] = [];
  readonly #doubles: Float64Array[] = [];

  /** So many zeros, of single precision; the same memory whenever the same `place` is asked. */
  singles(place: number, length: number): Float32Array {
    return cleared(this.#singles, place, length, Float32Array);
  }

  /** The same of double precision. */
  doubles(place: number, length: number): Float64Array {
    return cleared(this.#doubles, place, length, Float64Array);
  }
}

function cleared<T extends Float32Array | Float64Array>(
  kept: T[],
  place: number,
  length: number,
  Numbers: new (length: number) => T,
): T {
  const known = kept[place];
  if (known?.length === length) return known.fill(0) as T;
  kept[place] = new Numbers(length);
  return kept[place];
}
