/** Smooth fields of a piece of wood at one point of it. */
export interface GrainSample {
  /** mm from the pith. */
  radius: number;
  /** Lightness added by slow changes of colour, as a share. */
  wash: number;
  /** mm by which the fibres are pushed aside. */
  drift: number;
  /** mm round the stem: which ray passes here. */
  ray: number;
}

/** The smooth fields of many pieces, at nodes fixed in mm. Plain data. */
export interface Nodes {
  readonly radius: Float32Array;
  readonly wash: Float32Array;
  readonly drift: Float32Array;
  readonly ray: Float32Array;
}

/**
 * Where a piece's nodes lie: node (c, r) at u = u0 + c / perMmU, v = v0 + r / perMmV in the piece's own
 * mm, at index base + c + r * columns.
 */
export interface NodeGrid {
  readonly base: number;
  readonly columns: number;
  readonly rows: number;
  readonly u0: number;
  readonly v0: number;
  readonly perMmU: number;
  readonly perMmV: number;
}

/** Nodes kept outside the piece on each side, so that the spline has its neighbours. */
const MARGIN = 3;

/** A grid over 0..width, 0..length mm with whole numbers of steps, so that what closes over the piece still does. */
export function nodeGrid(
  base: number,
  width: number,
  length: number,
  stepU: number,
  stepV: number,
  multipleU = 1,
  multipleV = 1,
): NodeGrid {
  const across = Math.max(1, Math.ceil(width / stepU / multipleU)) * multipleU;
  const down = Math.max(1, Math.ceil(length / stepV / multipleV)) * multipleV;
  return {
    base,
    columns: across + 1 + 2 * MARGIN,
    rows: down + 1 + 2 * MARGIN,
    u0: (-MARGIN * width) / across,
    v0: (-MARGIN * length) / down,
    perMmU: across / width,
    perMmV: down / length,
  };
}

export function nodeCount(grid: NodeGrid): number {
  return grid.columns * grid.rows;
}

/** Fills the nodes of one piece. `field` writes its sample into `out`. */
export function fillNodes(
  nodes: Nodes,
  grid: NodeGrid,
  field: (u: number, v: number, out: GrainSample) => void,
): void {
  const out: GrainSample = { radius: 0, wash: 0, drift: 0, ray: 0 };
  for (let r = 0; r < grid.rows; r++) {
    const v = grid.v0 + r / grid.perMmV;
    for (let c = 0; c < grid.columns; c++) {
      field(grid.u0 + c / grid.perMmU, v, out);
      const k = grid.base + c + r * grid.columns;
      nodes.radius[k] = out.radius;
      nodes.wash[k] = out.wash;
      nodes.drift[k] = out.drift;
      if (nodes.ray.length > 0) nodes.ray[k] = out.ray;
    }
  }
}

/**
 * The uniform cubic B-spline's four weights at share f of a step (de Boor, *A Practical Guide to
 * Splines*): twice continuously differentiable, and exact for straight slopes.
 */
export function splineWeights(f: number, out: Float64Array): void {
  const g = 1 - f;
  out[0] = (g * g * g) / 6;
  out[1] = (3 * f * f * f - 6 * f * f + 4) / 6;
  out[2] = (3 * g * g * g - 6 * g * g + 4) / 6;
  out[3] = (f * f * f) / 6;
}

/** Their derivatives, per step. */
export function splineSlopes(f: number, out: Float64Array): void {
  const g = 1 - f;
  out[0] = (-g * g) / 2;
  out[1] = (3 * f * f - 4 * f) / 2;
  out[2] = (4 * g - 3 * g * g) / 2;
  out[3] = (f * f) / 2;
}

/**
 * A field of a piece at one point, straight between the nodes; clamped to those there are. Differs from
 * the spline by a few hundredths of a mm and costs a quarter of it.
 */
export function nodeAt(values: Float32Array, grid: NodeGrid, u: number, v: number): number {
  const s = (u - grid.u0) * grid.perMmU;
  const t = (v - grid.v0) * grid.perMmV;
  const c = Math.max(0, Math.min(grid.columns - 2, Math.floor(s)));
  const r = Math.max(0, Math.min(grid.rows - 2, Math.floor(t)));
  const k = grid.base + c + r * grid.columns;
  const [a, b] = [values[k], values[k + grid.columns]];
  const upper = a + (s - c) * (values[k + 1] - a);
  const lower = b + (s - c) * (values[k + grid.columns + 1] - b);
  return upper + (t - r) * (lower - upper);
}

/** Bounds of a field of a piece over a rectangle of it, mm. */
export function nodeBounds(
  values: Float32Array,
  grid: NodeGrid,
  [u0, u1]: readonly [number, number],
  [v0, v1]: readonly [number, number],
): { readonly low: number; readonly high: number } {
  const clamp = (value: number, most: number) => Math.max(0, Math.min(most, value));
  const c0 = clamp(Math.floor((u0 - grid.u0) * grid.perMmU) - 1, grid.columns - 1);
  const c1 = clamp(Math.ceil((u1 - grid.u0) * grid.perMmU) + 1, grid.columns - 1);
  const r0 = clamp(Math.floor((v0 - grid.v0) * grid.perMmV) - 1, grid.rows - 1);
  const r1 = clamp(Math.ceil((v1 - grid.v0) * grid.perMmV) + 1, grid.rows - 1);
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let r = r0; r <= r1; r++) {
    for (let c = c0; c <= c1; c++) {
      const value = values[grid.base + c + r * grid.columns];
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return { low, high };
}
