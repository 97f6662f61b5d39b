import type { PlaneName } from './layer.ts';

/** The least and the most that a plane may hold. */
export interface PlaneLimits {
  readonly least: number;
  readonly most: number;
}

/**
 * What each number of a plane may be, as plugins/README.md says it. The host plans as far as the most `bleed`; beyond
 * it bleeding stops, at one density sooner than at another. The others it takes as they are: no paint is a thousand times as thick, no gleam a thousand times the light,
 * none comes from a metre away, no cloth is 2 cm deep.
 */
export const PLANE_LIMITS: Readonly<Record<PlaneName, PlaneLimits>> = {
  load: { least: 0, most: 1000 },
  parting: { least: -1000, most: 1000 },
  tint: { least: 0, most: 1 },
  shade: { least: 0, most: 1000 },
  shift: { least: -1000, most: 1000 },
  bleed: { least: 0, most: 8 },
  relief: { least: -20, most: 20 },
};
