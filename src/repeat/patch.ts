/** A rectangle of the plane in whole pixels of a grid, anywhere: nothing is wrapped. */
export interface Patch {
  /** The first pixel from the left, counted from the origin of the plane; may be below 0. */
  readonly x: number;
  /** The first row of pixels from above; may be below 0. */
  readonly y: number;
  /** Pixels across. */
  readonly width: number;
  /** Pixels down. */
  readonly height: number;
}

/** A patch with so many pixels more on all sides. */
export function grownPatch({ x, y, width, height }: Patch, margin: number): Patch {
  return { x: x - margin, y: y - margin, width: width + 2 * margin, height: height + 2 * margin };
}

/** The least patch around another whose sides lie on multiples of `step` pixels. */
export function alignedPatch({ x, y, width, height }: Patch, step: number): Patch {
  const [left, top] = [Math.floor(x / step) * step, Math.floor(y / step) * step];
  const [right, bottom] = [Math.ceil((x + width) / step) * step, Math.ceil((y + height) / step) * step];
  return { x: left, y: top, width: right - left, height: bottom - top };
}

/** True where all of `inner` lies in `outer`. */
export function holdsPatch(outer: Patch, inner: Patch): boolean {
  return (
    outer.x <= inner.x &&
    outer.y <= inner.y &&
    outer.x + outer.width >= inner.x + inner.width &&
    outer.y + outer.height >= inner.y + inner.height
  );
}
