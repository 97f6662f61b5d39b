/**
 * Outlines of drops: their radius and the strength of their rim all round, `ANGLES` values each, at
 * even steps of `turnOf`.
 */
export interface Outlines {
  /** mm; drop k from k * ANGLES on. */
  readonly radius: Float32Array;
  /** 0 no rim to 1. */
  readonly rim: Float32Array;
  /** How far a finger reaches: standard deviation about 1. */
  readonly finger: Float32Array;
  /** The largest radius of each drop, mm. */
  readonly widest: Float64Array;
}

export const ANGLES = 128;

/**
 * A direction as a number 0 <= turn < 4 that grows all round, as an angle does: a division where the
 * angle takes an arc tangent.
 */
export function turnOf(dx: number, dy: number): number {
  const sum = Math.abs(dx) + Math.abs(dy);
  if (sum === 0) return 0;
  const part = dy / sum;
  if (dx < 0) return 2 - part;
  return part < 0 ? 4 + part : part;
}

/** The unit vector in the direction of a turn. */
export function directionOf(turn: number): [number, number] {
  const quarter = Math.floor(turn);
  const part = turn - quarter;
  const [u, v] = [1 - part, part];
  const length = Math.hypot(u, v);
  const [dx, dy] = [
    [u, v],
    [-v, u],
    [-u, -v],
    [v, -u],
  ][quarter & 3];
  return [dx / length, dy / length];
}
