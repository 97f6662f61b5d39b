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
  /** The print on the threads; none where the artwork goes through the cloth. */
  readonly ink: ClothInk | null;
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

/** Where the ink on a float comes from. */
export interface InkedFloats {
  /** Crossings to the middle of the float, along the thread. */
  readonly toMiddle: Float32Array;
  /** Share of the way to that middle which the ink goes. */
  readonly pull: Float32Array;
}

/**
 * A print on a cloth: how much ink each place of a yarn has taken, as the light that a typical ink returns there
 * (see `meanOfLoads`: light may be averaged, amounts of ink may not). Plain data.
 */
export interface ClothInk {
  /** Indexed as `LitYarn.light`. */
  readonly warp: Float32Array;
  readonly weft: Float32Array;
  /** On the open ground. */
  readonly ground: number;
  /** Of the thread on top, by crossing of the draft. */
  readonly floats: InkedFloats;
  /** Share of the way to the middle of its thread that the ink goes. */
  readonly warpAcross: number;
  readonly weftAcross: number;
  /** The means of it all, see `far.ts`. */
  readonly far: FarLight;
}
