/**
 * How fast everything on a wet sheet goes, per step and per cell. Water is reckoned in films: 1 is what a
 * generous brush leaves.
 */
export interface SheetRates {
  /** How far a film of depth 1 levels itself in a step, in cells squared. */
  readonly levelling: number;
  /** The same, in proportion to the depth alone: what creeps through the fibres. */
  readonly creeping: number;
  /** How hard dry paper draws at the water beside it; 0 for not at all. */
  readonly suction: number;
  /** The sheet's fall across and down a cell, against a film of depth 1. */
  readonly fallX: number;
  /** See `fallX`. */
  readonly fallY: number;
  /** Water that dries off in a step. */
  readonly drying: number;
  /** How much faster it dries per dry neighbour. */
  readonly dryingAtEdges: number;
  /** The share of the paint that settles in a step from still water of depth 1. */
  readonly settling: number;
  /** The share of settled paint that running water takes up again in a step. */
  readonly lifting: number;
  /** The share that is bound in a step where the film is gone. */
  readonly fixing: number;
  /** The share of what water carries that goes with it over a front into dry paper; the rest is left there. */
  readonly passing: number;
  /** How far paint spreads in still water of depth 1 in a step, in cells squared. */
  readonly spreading: number;
  /** Part of a reference step that a step stands for, for whatever is judged by how fast water runs. */
  readonly pace: number;
}

/** What is judged of a sheet: cells as large as `REFERENCE_CELL`, dry after some `REFERENCE_STEPS` steps. */
export const REFERENCE_CELL = 0.5;
/** See `REFERENCE_CELL`. */
export const REFERENCE_STEPS = 330;

/** Rates of the reference steps and cells, fitted by eye. */
export const REFERENCE_RATES: SheetRates = {
  levelling: 0.28,
  creeping: 0.02,
  suction: 1,
  fallX: 0,
  fallY: 0,
  drying: 0.0115,
  dryingAtEdges: 0.6,
  settling: 0.005,
  lifting: 0.022,
  fixing: 0.015,
  passing: 0.85,
  spreading: 0.06,
  pace: 1,
};

/** The rates for steps that are `longer` times those of the reference, over cells of so many mm. */
export function ratesFor(
  rates: SheetRates,
  { longer, mmPerCell }: { readonly longer: number; readonly mmPerCell: number },
): SheetRates {
  const coarser = mmPerCell / REFERENCE_CELL;
  const overArea = longer / (coarser * coarser);
  return {
    ...rates,
    levelling: rates.levelling * overArea,
    creeping: rates.creeping * overArea,
    spreading: rates.spreading * overArea,
    // A slope counts per length, not per area.
    fallX: rates.fallX * coarser,
    fallY: rates.fallY * coarser,
    drying: rates.drying * longer,
    settling: rates.settling * longer,
    lifting: rates.lifting * longer,
    fixing: rates.fixing * longer,
    pace: rates.pace * longer,
  };
}
