/** mm per cell of the sheet, and how many reference steps each of its steps stands for. Fixed in mm whatever the pixels. */
export interface Fineness {
  readonly mmPerCell: number;
  readonly longer: number;
}
export const FINISHED: Fineness = { mmPerCell: 0.5, longer: 6 };
export const SKETCH: Fineness = { mmPerCell: 0.85, longer: 9 };
