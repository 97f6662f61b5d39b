import { HINTS } from '../hints.ts';
import { type AnyLayer, PLANE_CHANNELS, PLANE_NAMES, type PlaneName } from '../layer.ts';
import { PLANE_LIMITS } from '../plane-limits.ts';

/** Float32 arithmetic may overshoot an exact end by its rounding: so much, or so great a part of it. */
const ROUNDING = 1e-6;

/** A number that a plane must not hold. */
export interface Unsound {
  readonly plane: PlaneName;
  readonly value: number;
  /** Pixel of the layer. */
  readonly x: number;
  readonly y: number;
  /** What the plane may hold, in words. */
  readonly range: string;
}

const IN_MM: readonly PlaneName[] = ['shift', 'bleed', 'relief'];

/** What a plane may hold, in words. */
function rangeOf(plane: PlaneName): string {
  const { least, most } = PLANE_LIMITS[plane];
  return `finite ${IN_MM.includes(plane) ? 'mm' : 'numbers'} from ${least} to ${most}`;
}

/** What to do about a finite number that is too large or too small. */
export function clampRemedy(plane: PlaneName): string {
  return IN_MM.includes(plane) ? HINTS.clampMm : HINTS.clamp;
}

/** True for a number that the plane may hold. */
export function isSound(plane: PlaneName, value: number): boolean {
  const { least, most } = PLANE_LIMITS[plane];
  return value >= least - roundingAt(least) && value <= most + roundingAt(most);
}

function roundingAt(end: number): number {
  return ROUNDING * Math.max(1, Math.abs(end));
}

/** The first number of a layer that it must not hold, or none. */
export function unsoundIn(layer: AnyLayer): Unsound | undefined {
  for (const plane of PLANE_NAMES) {
    const numbers = layer[plane];
    const at = numbers ? numbers.findIndex((value) => !isSound(plane, value)) : -1;
    if (at < 0) continue;
    const pixel = Math.floor(at / PLANE_CHANNELS[plane]);
    const x = pixel % layer.width;
    return { plane, value: numbers![at], x, y: Math.floor(pixel / layer.width), range: rangeOf(plane) };
  }
  return undefined;
}

/** True where any plane holds a number at this pixel that it must not. */
export function isUnsoundAt(layer: AnyLayer, pixel: number): boolean {
  return PLANE_NAMES.some((plane) => {
    const count = PLANE_CHANNELS[plane];
    const numbers = layer[plane]?.subarray(pixel * count, (pixel + 1) * count);
    return numbers?.some((value) => !isSound(plane, value)) ?? false;
  });
}
