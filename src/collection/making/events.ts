import type { Failure } from '../disk/failures.ts';

/** What a run tells while it goes on. */
export type RunEvent =
  | { readonly event: 'begin'; readonly renders: number; readonly made: number; readonly megapixels: number }
  | { readonly event: 'made'; readonly name: string; readonly seconds: number; readonly closes: boolean }
  | { readonly event: 'found'; readonly name: string }
  | { readonly event: 'retry'; readonly name: string; readonly reason: string; readonly how: string }
  | ({ readonly event: 'failed' } & Omit<Failure, 'address'>)
  | { readonly event: 'waiting'; readonly words: string }
  | Progress;

export interface Progress {
  readonly event: 'progress';
  readonly done: number;
  readonly renders: number;
  /** Of the pixels. */
  readonly share: number;
  /** None until something was measured. */
  readonly secondsLeft?: number;
}
