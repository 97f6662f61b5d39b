import type { Grid } from '../../repeat/grid.ts';
import type { PlaneName } from '../layer.ts';
import type { Trial } from './trial.ts';

/** A trial that has been prepared. */
export interface Sample {
  readonly trial: Trial;
  readonly grid: Grid;
  readonly model: unknown;
  /** Those that the effect says these values need. */
  readonly planes: readonly PlaneName[];
  /** What `prepare` looked at in its setting. */
  readonly used: ReadonlySet<PropertyKey>;
}
