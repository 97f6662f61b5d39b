import {
  advectLines,
  diffuseLines,
  type FieldLines,
  type FieldShape,
  linesAlong,
  openAdvectStore,
  openLineStore,
} from 'tenter';

/** Water that pushes its way in behind a front. One level per cell of the flow's own grid. */
export interface Push {
  /** mm from the front's last place, negative inside. */
  readonly level: Float32Array;
  /** mm the front travels in all. */
  readonly reach: number;
  /** How much of its speed the paint takes on, per cell, 0..1. */
  readonly grip: Float32Array;
  /** mm behind the front over which the push dies away. */
  readonly trail: number;
  /** Water brought in, as a share of the first sheet. */
  readonly water: number;
}

export interface FlowSpec {
  readonly shape: FieldShape;
  /** Water of the first wash, about 1 per cell. */
  readonly water: Float64Array;
  /** Paint per cell, 0 or more. */
  readonly paint: Float64Array;
  /** A second paint, if any. */
  readonly second?: Float64Array;
  /** How easily water passes, about 1 per cell. */
  readonly ease: Float32Array;
  readonly pushes: readonly Push[];
  /** mm2 that levelling spreads water over, from wet to dry. */
  readonly levelling: number;
  /** mm2 that paint spreads over in fully wet paper, from wet to dry. */
  readonly spreading: number;
  /** mm that paint of the first wash's thickness runs downhill in all. */
  readonly run: { readonly x: number; readonly y: number };
  /** Equal steps of the square root of time. */
  readonly steps: number;
  /** Water that dries off in all, in first sheets. */
  readonly dried: number;
  /** How much faster a lone wet spot dries than the middle of a wet sheet; 0 for alike. */
  readonly shield: number;
  readonly onStep?: (done: number) => void;
}

export interface Flowed {
  readonly paint: Float64Array;
  readonly second?: Float64Array;
  /** mm that the fluid went past each cell. */
  readonly movedX: Float32Array;
  readonly movedY: Float32Array;
}

/** Out of two faces at most a whole cell may flow (see `advectLines`). */
const MOST_COURANT = 0.5;
/** mm before a front over which paint is already shoved. */
const SHOVE = 4;

/**
 * Water and paint in a damp sheet until it dries, on a coarse grid, one axis after the other:
 *
 * 1. water levels itself, h_t = div(K h^2 grad h) (thin damp film, Darcy), implicitly, and runs downhill
 *    at speed ~ K h^2;
 * 2. paint goes with both, and with the water that pushes in behind the fronts;
 * 3. paint diffuses where it is wet, m_t = div(D h grad m), implicitly;
 * 4. water dries off, faster where the air above is drier, at the rim of what is wet: there the sheet draws
 *    water after it, and what that carries stays (R. Deegan and others, *Capillary flow as the cause of
 *    ring stains from dried liquid drops*, 1997).
 *
 * The totals of both paints are kept to rounding.
 */
export function runFlow(spec: FlowSpec): Flowed {
  const { shape, steps, paint, second } = spec;
  const cells = shape.width * shape.height;
  const axes = [
    axisOf(spec, 'x', shape.mmPerCellX, spec.run.x, cells),
    axisOf(spec, 'y', shape.mmPerCellY, spec.run.y, cells),
  ];
  const air = new Float64Array(cells).fill(1);
  for (let step = 0; step < steps; step++) {
    // Each half of a step begins on the other axis, so that neither is favoured.
    for (const axis of step % 2 === 0 ? axes : [axes[1], axes[0]]) {
      flowAlong(spec, axis, step);
      advectLines(axis.lines, paint, axis.courant, axis.carried);
      if (second) advectLines(axis.lines, second, axis.courant, axis.carried);
      blend(spec, axis, step);
    }
    feed(spec, step);
    dry(spec, axes, air, step);
    spec.onStep?.((step + 1) / steps);
  }
  creep(spec, axes);
  return { paint, second, movedX: axes[0].moved, movedY: axes[1].moved };
}

interface Axis {
  readonly lines: FieldLines;
  readonly mmPerCell: number;
  readonly run: number;
  /** The next cell on the line. */
  readonly next: Int32Array;
  readonly conductance: Float64Array;
  readonly flux: Float64Array;
  readonly courant: Float64Array;
  readonly moved: Float32Array;
  readonly solved: ReturnType<typeof openLineStore>;
  readonly carried: ReturnType<typeof openAdvectStore>;
}

function axisOf(spec: FlowSpec, name: 'x' | 'y', mmPerCell: number, run: number, cells: number): Axis {
  const lines = linesAlong(spec.shape, name);
  const next = new Int32Array(cells);
  for (let n = 0; n < cells; n++) {
    const isLast = (n + 1) % lines.length === 0;
    next[lines.cells[n]] = lines.cells[isLast ? n + 1 - lines.length : n + 1];
  }
  return {
    lines,
    mmPerCell,
    run,
    next,
    conductance: new Float64Array(cells),
    flux: new Float64Array(cells),
    courant: new Float64Array(cells),
    moved: new Float32Array(cells),
    solved: openLineStore(lines.length),
    carried: openAdvectStore(lines.length),
  };
}

/** Levels and runs the water; leaves in `courant` what share of a cell flows through each face. */
function flowAlong(spec: FlowSpec, axis: Axis, step: number): void {
  const { water, ease, steps } = spec;
  const { next, conductance, flux, courant, mmPerCell, moved } = axis;
  const rate = spec.levelling / (steps * mmPerCell * mmPerCell);
  for (let k = 0; k < next.length; k++) {
    const n = next[k];
    const h = 0.5 * (water[k] + water[n]);
    conductance[k] = rate * 0.5 * (ease[k] + ease[n]) * h * h;
  }
  diffuseLines(axis.lines, water, conductance, axis.solved, flux);
  const slope = axis.run / (steps * mmPerCell);
  for (let k = 0; k < next.length; k++) {
    const n = next[k];
    const h = 0.5 * (water[k] + water[n]);
    const runs = slope * 0.5 * (ease[k] + ease[n]) * h * h;
    courant[k] = h > 1e-6 ? flux[k] / h + runs : 0;
    flux[k] = clampCourant(runs);
  }
  if (axis.run !== 0) advectLines(axis.lines, water, flux, axis.carried);
  for (const push of spec.pushes) addPush(push, axis, step, steps);
  for (let k = 0; k < next.length; k++) {
    courant[k] = clampCourant(courant[k]);
    moved[k] += courant[k] * mmPerCell;
  }
}

function clampCourant(c: number): number {
  return c > MOST_COURANT ? MOST_COURANT : Math.max(c, -MOST_COURANT);
}

/** The front advances evenly; behind it the push dies away, before it it begins. */
function addPush(
  { level, reach, grip, trail }: Push,
  { next, courant, mmPerCell }: Axis,
  step: number,
  steps: number,
): void {
  const front = -reach * (1 - (step + 0.5) / steps);
  const speed = reach / (steps * mmPerCell);
  const first = front - trail;
  const last = front + SHOVE;
  for (let k = 0; k < next.length; k++) {
    const n = next[k];
    const u = 0.5 * (level[k] + level[n]);
    if (u < first || u > last) continue;
    const slope = (level[n] - level[k]) / mmPerCell;
    const along = slope > 1 ? 1 : Math.max(slope, -1);
    const share = u < front ? (u - first) / trail : (last - u) / SHOVE;
    courant[k] += speed * along * share * 0.5 * (grip[k] + grip[n]);
  }
}

/** Paint diffuses where the sheet is wet. */
function blend(spec: FlowSpec, axis: Axis, step: number): void {
  const { water, paint, second, steps } = spec;
  const { next, conductance, mmPerCell } = axis;
  const rate = spec.spreading / (steps * mmPerCell * mmPerCell);
  // The square root of time advances evenly: late steps last longer.
  const long = (2 * (step + 0.5)) / steps;
  for (let k = 0; k < next.length; k++) conductance[k] = rate * long * 0.5 * (water[k] + water[next[k]]);
  diffuseLines(axis.lines, paint, conductance, axis.solved);
  if (second) diffuseLines(axis.lines, second, conductance, axis.solved);
}

/** mm (standard deviation) that paint creeps along the fibres at last: seams where fronts met lose their cells. */
const CREEP = 0.5;
const CREEP_STEPS = 2;

function creep({ paint, second }: FlowSpec, axes: readonly Axis[]): void {
  for (let step = 0; step < CREEP_STEPS; step++) {
    for (const { lines, conductance, mmPerCell, solved } of axes) {
      conductance.fill(CREEP ** 2 / (2 * CREEP_STEPS * mmPerCell * mmPerCell));
      diffuseLines(lines, paint, conductance, solved);
      if (second) diffuseLines(lines, second, conductance, solved);
    }
  }
}

/** Water comes in where a front has just passed. */
function feed({ water, pushes, steps }: FlowSpec, step: number): void {
  for (const { level, reach, grip, water: brought } of pushes) {
    const from = step === 0 ? Number.NEGATIVE_INFINITY : -reach * (1 - step / steps);
    const to = -reach * (1 - (step + 1) / steps);
    for (let k = 0; k < water.length; k++) {
      if (level[k] > from && level[k] <= to) water[k] += brought * grip[k];
    }
  }
}

/** mm over which damp air spreads. */
const AIR = 5;
/** Steps between two looks at the air. */
const AIR_STEPS = 4;

/** Water dries off, never to nothing: the last of it is bound. */
function dry(spec: FlowSpec, axes: readonly Axis[], air: Float64Array, step: number): void {
  const { water, dried, shield, steps } = spec;
  if (shield > 0 && step % AIR_STEPS === 0) {
    for (let k = 0; k < air.length; k++) air[k] = Math.min(1, 1.5 * water[k]);
    for (const { lines, conductance, mmPerCell, solved } of axes) {
      conductance.fill(AIR ** 2 / (2 * mmPerCell * mmPerCell));
      diffuseLines(lines, air, conductance, solved);
    }
  }
  // The square root of time advances evenly: late steps last longer.
  const rate = ((2 * (step + 0.5)) / steps) * (dried / steps);
  for (let k = 0; k < water.length; k++) {
    const left = water[k] - rate * (1 + shield * (1 - air[k]));
    water[k] = Math.max(left, 0.02 * water[k]);
  }
}
