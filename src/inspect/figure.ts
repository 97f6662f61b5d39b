import type { Limit } from './limit.ts';
import type { MeasureName } from './measure.ts';

/** A figure of a seam beside those inside. */
export interface Figure extends Limit {
  readonly measure: MeasureName | 'contour';
  /** How it was gathered, e.g. `median`. */
  readonly pool: string;
  readonly value: number;
  /** px along the line. */
  readonly start: number;
  readonly length: number;
  /** Side of the cells it was measured in, px. */
  readonly scale: number;
}
