import type { PassOrder, Prepared, PrepareOrder } from './orders.ts';
import type { PlaneRange } from './ranges.ts';

/** The threads of one render, as far as rendering needs them; what fails on one is thrown. */
export interface RenderCrew {
  /** Prepares several effects, side by side. */
  prepare(
    orders: readonly PrepareOrder[],
    onProgress: (step: number, done: number) => void,
  ): Promise<Prepared[]>;
  /** Lets every thread take bands of a pass until none is left. @returns The ranges of every step's planes, where the pass asks for them. */
  runPass(pass: PassOrder, onRows: (rows: number) => void): Promise<readonly (readonly PlaneRange[])[]>;
}
