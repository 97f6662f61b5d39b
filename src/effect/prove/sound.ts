import { HINTS } from '../hints.ts';
import { type AnyLayer, PLANE_CHANNELS, PLANE_NAMES, type PlaneName } from '../layer.ts';

/** Float32 arithmetic may overshoot an exact 0 or 1 by its rounding. */
const ROUNDING = 1e-6;
/** No paint is a thousand times as thick, no gleam a thousand times the light, none moves a metre, no cloth is 2 cm deep. */
const MOST = { load: 1000, shade: 1000, shift: 1000, bleed: 1000, relief: 20 } as const;

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

/** What each plane may hold, in words. */
const RANGES: Readonly<Record<PlaneName, string>> = {
  load: `finite numbers from 0 to ${MOST.load}`,
  tint: 'finite numbers from 0 to 1',
  shade: `finite numbers from 0 to ${MOST.shade}`,
  shift: `finite mm, at most ${MOST.shift} either way`,
  bleed: `finite mm from 0 to ${MOST.bleed}`,
  relief: `finite mm, at most ${MOST.relief} up or down`,
};

const IN_MM: readonly PlaneName[] = ['shift', 'bleed', 'relief'];

/** What to do about a finite number that is too large or too small. */
export function clampRemedy(plane: PlaneName): string {
  return IN_MM.includes(plane) ? HINTS.clampMm : HINTS.clamp;
}

/** True for a number that the plane may hold. */
export function isSound(plane: PlaneName, value: number): boolean {
  if (!Number.isFinite(value)) return false;
  if (plane === 'shift' || plane === 'relief') return Math.abs(value) <= MOST[plane];
  return value >= -ROUNDING && value <= (plane === 'tint' ? 1 + ROUNDING : MOST[plane]);
}

/** The first number of a layer that it must not hold, or none. */
export function unsoundIn(layer: AnyLayer): Unsound | undefined {
  for (const plane of PLANE_NAMES) {
    const numbers = layer[plane];
    const at = numbers ? numbers.findIndex((value) => !isSound(plane, value)) : -1;
    if (at < 0) continue;
    const pixel = Math.floor(at / PLANE_CHANNELS[plane]);
    const x = pixel % layer.width;
    return { plane, value: numbers![at], x, y: Math.floor(pixel / layer.width), range: RANGES[plane] };
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
