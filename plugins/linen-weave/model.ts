import type { Draft } from './draft.ts';
import type { FibreStrip } from './fibre.ts';
import type { LitYarn } from './light.ts';
import type { Sett } from './sett.ts';
import type { ThreadSet } from './threads.ts';
import type { YarnTables } from './yarn.ts';

/** One set of yarns, spun, placed and lit. */
export interface YarnSet extends YarnTables {
  readonly threads: ThreadSet;
  readonly fibres: FibreStrip;
  readonly lit: LitYarn;
  /** mm, half the width of the even yarn. */
  readonly evenHalf: number;
  /** Whole pitches beyond which no thread strays from its place. */
  readonly reach: number;
}

/** Everything `paint` needs. Plain data; knows nothing of pixels. */
export interface LinenModel {
  /** 1, or less where a sketch is drawn from fewer samples. */
  readonly sampling: number;
  readonly draft: Draft;
  readonly sett: Sett;
  /** mm */
  readonly width: number;
  /** mm */
  readonly height: number;
  readonly warp: YarnSet;
  readonly weft: YarnSet;
  readonly far: FarLight;
  /** Share of the plane that even yarns cover. */
  readonly cover: number;
  /** Light that returns from between the threads. */
  readonly gap: number;
  readonly gapDarkness: number;
  readonly warpColour: readonly [number, number, number];
  readonly weftColour: readonly [number, number, number];
  readonly dye: number;
}

/** Mean light of each set of yarns where it shows, over and under the other. Plain data. */
export interface FarLight {
  readonly warpOver: number;
  readonly warpUnder: number;
  readonly weftOver: number;
  readonly weftUnder: number;
  /** Light that returns from between the threads. */
  readonly gap: number;
}
