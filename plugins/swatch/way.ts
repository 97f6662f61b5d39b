import type { Band, Box, Quality, RandomStream } from 'tenter';

/** A swatch, or what is left of it at a coarser density, as samples of equal width and height. Plain data. */
export interface Level {
  /** Samples across. */
  readonly width: number;
  /** Samples down. */
  readonly height: number;
  /** Side of a sample on the cloth, mm. */
  readonly mmPerSample: number;
  /**
   * One plane (what is laid as an amount or as light) or three (red, green and blue of what is laid as colour),
   * each `width * height` numbers, row by row. All are linear in light, whatever they are laid as, so that means
   * of them are what is seen from further away; 0 or more, about 1 where the swatch is white.
   */
  readonly planes: readonly Float32Array[];
}

/** What a way of growing a swatch is handed. The swatch has been cut to its part and its light made even. */
export interface Prepared {
  /**
   * The swatch: as fine as it is kept first, then each of half the density of the one before, the means of two by
   * two samples; sample (i, j) of each has its centre at ((i + 0.5), (j + 0.5)) * mmPerSample from the corner of
   * the swatch. Down to about 8 samples a side. A sketch may begin at a coarser one.
   */
  readonly levels: readonly Level[];
  /** The whole swatch, mm: a little more than the coarser levels hold, which leave out half samples. */
  readonly width: number;
  readonly height: number;
  /** What the texture must close over. */
  readonly box: Box;
  /** Whether pieces may be turned by quarter turns. */
  readonly turned: boolean;
  /** Whether pieces may be turned over, left for right. */
  readonly mirrored: boolean;
  readonly quality: Quality;
  random(name: string): RandomStream;
  /** How far preparing has come, 0..1; throws where the render was given up. */
  progress(done: number): void;
}

/** How a swatch is grown. The model is plain data and may hold the planes it was handed. */
export interface Way<Model> {
  prepare(prepared: Prepared): Model;
  /**
   * Fills, for a band of the plane, as many planes as the swatch has, each `band.width * band.height` long and row
   * by row, with the same numbers that the swatch holds.
   */
  paint(model: Model, band: Band, planes: readonly Float32Array[]): void;
  /**
   * mm between the two nearest places that show the same piece of the swatch the same way up (the repeat itself
   * not counted); infinite where none does.
   */
  comesBack(model: Model): number;
}
