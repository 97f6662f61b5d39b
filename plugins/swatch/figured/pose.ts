/**
 * A way up of the swatch: place (u, v) of the posed swatch is place
 * (xu * u + xv * v + x0, yu * u + yv * v + y0) of the swatch itself, all mm.
 */
export interface Pose {
  readonly xu: number;
  readonly xv: number;
  readonly yu: number;
  readonly yv: number;
  readonly x0: number;
  readonly y0: number;
  /** Of the posed swatch, mm. */
  readonly width: number;
  readonly height: number;
}

/** All ways up that are allowed, the one that it was given in first. */
export function posesOf(width: number, height: number, turned: boolean, mirrored: boolean): Pose[] {
  const upright: Pose[] = [
    { xu: 1, xv: 0, yu: 0, yv: 1, x0: 0, y0: 0, width, height },
    { xu: 0, xv: 1, yu: -1, yv: 0, x0: 0, y0: height, width: height, height: width },
    { xu: -1, xv: 0, yu: 0, yv: -1, x0: width, y0: height, width, height },
    { xu: 0, xv: -1, yu: 1, yv: 0, x0: width, y0: 0, width: height, height: width },
  ].slice(0, turned ? 4 : 1);
  if (!mirrored) return upright;
  const over = upright.map((pose) => ({ ...pose, xu: -pose.xu, xv: -pose.xv, x0: width - pose.x0 }));
  return [...upright, ...over];
}
