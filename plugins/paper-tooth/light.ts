/** mm over which slopes are taken. */
export const SLOPE_REACH = 0.05;

/** How far the lit flanks and the shaded ones fall short of what their slope alone would give. */
const LIT_BEND = 1.3;
const SHADE_BEND = 1.5;

/**
 * Light that a flank returns, 1 = level ground. By Lambert's law it is 1 + facing, where `facing` is the
 * slope towards the light times the cotangent of the light's height. Under a raking light hills shade one
 * another and the lit flanks fill the page with stray light: both ends are bent.
 */
export function returned(facing: number): number {
  return 1 + facing / (facing > 0 ? 1 + LIT_BEND * facing : 1 - SHADE_BEND * facing);
}
