/** A list of numbers of any kind that kernels read. */
export type Numbers = Float32Array | Float64Array | Int32Array | Uint8Array;

/** Makes a list of `length` zeros, wherever it is to lie. */
export type Allot = <List extends Numbers>(kind: NumbersIn<List>, length: number) => List;

export interface NumbersIn<List> {
  new (length: number): List;
  new (memory: ArrayBuffer, offset: number, length: number): List;
}

/** In memory of its own. */
export const allotOwn: Allot = (kind, length) => new kind(length);
