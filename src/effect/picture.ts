/** A picture that a parameter names, as `setting.picture(name)` hands it to `prepare`. Frozen. */
export interface Picture {
  /** Pixels across. */
  readonly width: number;
  /** Pixels down. */
  readonly height: number;
  /** Width of a pixel in mm, from the picture's own density. */
  readonly mmPerPixelX: number;
  /** Height of a pixel in mm. */
  readonly mmPerPixelY: number;
  /**
   * Straight RGBA in sRGB, 0 to 65,535, row by row from above; alpha is 65,535 where the file has none. In
   * memory that all threads share: it may stand in a model, and is not to be written.
   */
  readonly samples: Uint16Array;
}
