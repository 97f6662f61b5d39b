/** mm per cell of the fronts and of the flow, and in how many steps the sheet dries. Fixed in mm whatever the pixels. */
export interface Fineness {
  readonly fronts: number;
  readonly flow: number;
  readonly steps: number;
}
export const FINISHED: Fineness = { fronts: 0.4, flow: 1, steps: 36 };
export const SKETCH: Fineness = { fronts: 1, flow: 2, steps: 28 };
