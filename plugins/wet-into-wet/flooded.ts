import type { PeriodicField } from 'tenter';
import type { Stream } from './streaks.ts';

/** What the flow left, on the cells that it was worked out on. */
export interface Flood {
  /** Natural logarithm of the first wash's paint. */
  readonly base: PeriodicField;
  /** What was touched in, if anything. */
  readonly touched?: PeriodicField;
  /** Whether that is another colour. */
  readonly isSecond: boolean;
  /** Natural logarithm of the load where the artwork's paint ran. */
  readonly feathered?: PeriodicField;
  /** Share of edges that are lost, 0..1. */
  readonly lost: PeriodicField;
  /** Where heavy pigment settles, deviation 1. */
  readonly silt: PeriodicField;
  readonly stream: Stream;
  /** Where puddles stood long, 0..1. */
  readonly stood: PeriodicField;
}
