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

const AT = { s: new Float64Array(4), t: new Float64Array(4) };

/** A field of a piece at one point, by the spline; clamped to the nodes there are. */
export function nodeAt(values: Float32Array, grid: NodeGrid, u: number, v: number): number {
  const s = (u - grid.u0) * grid.perMmU;
  const t = (v - grid.v0) * grid.perMmV;
  const c = Math.max(1, Math.min(grid.columns - 3, Math.floor(s)));
  const r = Math.max(1, Math.min(grid.rows - 3, Math.floor(t)));
  splineWeights(s - c, AT.s);
  splineWeights(t - r, AT.t);
  const [s0, s1, s2, s3] = [AT.s[0], AT.s[1], AT.s[2], AT.s[3]];
  let sum = 0;
  for (let n = 0; n < 4; n++) {
    const k = grid.base + c - 1 + (r - 1 + n) * grid.columns;
    sum += AT.t[n] * (s0 * values[k] + s1 * values[k + 1] + s2 * values[k + 2] + s3 * values[k + 3]);
  }
  return sum;
}
