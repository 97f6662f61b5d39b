import type { EvenModel } from './even/index.ts';
import type { Model as FiguredModel } from './figured/model.ts';
import type { LayAs } from './laying.ts';

/** Everything that painting needs. Plain data. */
export interface SwatchModel {
  readonly layAs: LayAs;
  /** 0..1 */
  readonly strength: number;
  readonly grown: Grown;
}

export type Grown =
  | { readonly way: 'even'; readonly model: EvenModel }
  | { readonly way: 'figured'; readonly model: FiguredModel };
