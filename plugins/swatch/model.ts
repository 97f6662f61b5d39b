import type { EvenModel } from './even/index.ts';
import type { LayAs } from './laying.ts';

/** Everything that painting needs. Plain data. */
export interface SwatchModel {
  readonly layAs: LayAs;
  /** 0..1 */
  readonly strength: number;
  readonly way: 'even';
  readonly grown: EvenModel;
}
