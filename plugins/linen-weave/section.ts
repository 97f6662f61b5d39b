import { SECTION_CENTRE, STEPS_PER_UNIT } from './steps.ts';

/** u at (whole or broken) step `step`. */
export function sectionAt(step: number): number {
  return (step + 0.5 - SECTION_CENTRE) / STEPS_PER_UNIT;
}

/**
 * How high the surface stands above the centre line, in half thicknesses, 1 in the middle to 0 at
 * the edge: between an ellipse (0) and the flat-topped section of a pressed yarn (1).
 */
export function sectionHeight(u: number, pressed: number): number {
  const v = Math.min(1, u * u);
  const ellipse = Math.sqrt(1 - v);
  const flat = 1 - v * v;
  return ellipse + pressed * (flat - ellipse);
}

/** The ellipse is endlessly steep at its edge; a bundle of fibres is not. */
const STEEPEST = 2.5;

/** d(sectionHeight)/du, the ellipse's share held within STEEPEST. */
export function sectionSlope(u: number, pressed: number): number {
  const v = Math.min(0.9999, u * u);
  const ellipse = Math.max(-STEEPEST, Math.min(STEEPEST, -u / Math.sqrt(1 - v)));
  return ellipse + pressed * (-4 * u * v - ellipse);
}
