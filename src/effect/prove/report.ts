import type { Trial } from './trial.ts';

/** The name of a check, as reports and options use it. */
export type CheckName =
  | 'runs'
  | 'planes'
  | 'inside'
  | 'setting'
  | 'hidden'
  | 'memory'
  | 'twice'
  | 'state'
  | 'clone'
  | 'model'
  | 'bands'
  | 'periodic'
  | 'seam'
  | 'resolution'
  | 'finite'
  | 'parameters'
  | 'seed'
  | 'sketch'
  | 'abort'
  | 'cost'
  | 'presets'
  | 'sentences';

/** A picture that shows a fault: straight RGBA, 8 bit, row by row. */
export interface ProofPicture {
  readonly pixels: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
  /** What it shows and where its mark is, in sentences. */
  readonly caption?: string;
}

/** What an effect did not keep. */
export interface Failure {
  /** `Expected X, but received Y. What to do.` */
  readonly sentence: string;
  readonly expected: string;
  readonly received: string;
  readonly remedy: string;
  /** The smallest setting found that fails. */
  readonly setting: Trial;
  /** Another setting, where only both together show the fault, as of two seeds that give one texture. */
  readonly beside?: Trial;
  /** Absent where there is nothing to see, as for work that takes too long. */
  readonly picture?: ProofPicture;
  /** The promise that is broken, where it is another than what the check was looking for: a crash is one anywhere. */
  readonly breaks?: string;
}

/** What was measured, by name; the unit is part of the name. */
export type Figures = Readonly<Record<string, number>>;

/** How a check ended. */
export type Verdict =
  | { readonly status: 'passed'; readonly note?: string; readonly figures?: Figures }
  | { readonly status: 'failed'; readonly failure: Failure }
  | {
      readonly status: 'not applicable';
      readonly note: string;
      /** The check without which this one would say nothing, where that one failed. */
      readonly waitsFor?: CheckName;
    }
  /** The proof was stopped before this check came to its end. */
  | { readonly status: 'not reached'; readonly note: string };

/** How a check of an effect ended, with what it holds the effect to. */
export type CheckResult = Verdict & {
  readonly check: CheckName;
  /** The sentence of the contract that was tried. */
  readonly promise: string;
  /** What it cost; absent without a clock, and where it was not begun. */
  readonly seconds?: number;
};

/** What the conformance kit found of an effect. Plain data. */
export interface ProofReport {
  readonly effect: string;
  readonly version: string;
  /** True where all checks were reached and none failed. */
  readonly proven: boolean;
  /** Those that the proof was stopped before the end of. */
  readonly notReached: readonly CheckName[];
  readonly results: readonly CheckResult[];
  /** What all of it took; less than the checks together where two were under way at once. Absent without a clock. */
  readonly seconds?: number;
}
