/** Samples of a plane: `right` and `bottom` are the first that no longer belong to them. */
export interface Patch {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export function meanOf(plane: Float32Array, width: number, { left, right, top, bottom }: Patch): number {
  let sum = 0;
  for (let j = top; j < bottom; j++) {
    for (let i = left, at = j * width + left; i < right; i++, at++) sum += plane[at];
  }
  return sum / Math.max(1, (right - left) * (bottom - top));
}
