/** The planes of a texture layer, and how many numbers each holds per pixel. */
export const PLANE_CHANNELS = {
  /** How much of the paint is there; 1 = as painted, 0 or more. One number per pixel. */
  load: 1,
  /**
   * How the hues of the paint part: how much more of it, above 0, or less there is in the red, the green and the
   * blue light, added to `load`; 0 = one ink. Where pigments part, each channel's mean over the repeat is 0: paint
   * is moved, not lost. Three per pixel.
   */
  parting: 3,
  /** A colour with alpha: R, G, B in encoded sRGB and alpha, not premultiplied, each 0..1. Four per pixel. */
  tint: 4,
  /** How much light returns; 1 = unchanged, 0 or more, above 1 is a gleam. One number per pixel. */
  shade: 1,
  /** Where the paint came from: (dx, dy) in mm added to the pixel's own place. Two per pixel. */
  shift: 2,
  /**
   * How far the paint has run into its neighbours: the standard deviation of the Gaussian over which it is
   * mixed, in mm; 0 = as painted, 8 at most. One number per pixel.
   */
  bleed: 1,
  /**
   * How far the surface stands above the bare ground, in mm, below it where negative: the host lights it, with
   * one light for all steps of a recipe, and multiplies `shade` by what comes of it. One number per pixel.
   */
  relief: 1,
} as const;

/** The name of a plane. */
export type PlaneName = keyof typeof PLANE_CHANNELS;

/** The names of all planes. */
export const PLANE_NAMES = Object.keys(PLANE_CHANNELS) as PlaneName[];

/**
 * The planes of the steps before that an effect may read. What moves paint (`shift`, `bleed`) says where
 * paint came from, and means nothing once it has been laid.
 */
export const READABLE_PLANES = ['load', 'tint', 'shade', 'relief'] as const satisfies readonly PlaneName[];
/** The name of a plane that may be read. */
export type ReadablePlane = (typeof READABLE_PLANES)[number];

/** What an effect may read: the artwork, and planes of the steps before. */
export const READABLE = ['artwork', ...READABLE_PLANES] as const;
/** The name of what may be read. */
export type Readable = (typeof READABLE)[number];

/** What a plane holds before an effect paints it: no change to the artwork. */
const NEUTRAL = { load: 1, parting: 0, tint: 0, shade: 1, shift: 0, bleed: 0, relief: 0 } as const;

interface LayerSize {
  /** Pixels across. */
  readonly width: number;
  /** Pixels down. */
  readonly height: number;
}

/**
 * What an effect makes for one band: the planes that it declared (see `PLANE_CHANNELS`), each a
 * `Float32Array` of its numbers pixel by pixel and row by row, neutral to begin with.
 */
export type TextureLayer<Planes extends PlaneName = PlaneName> = LayerSize & {
  readonly [Name in Planes]: Float32Array;
};

/** A layer of any effect, as the host sees it; planes that are absent were not declared. */
export type AnyLayer = LayerSize & {
  readonly [Name in keyof typeof PLANE_CHANNELS]?: Float32Array;
};

/** A new layer with these planes, all neutral. */
export function neutralLayer(planes: readonly PlaneName[], width: number, height: number): AnyLayer {
  const made: { -readonly [Name in PlaneName]?: Float32Array } = {};
  for (const name of planes) {
    made[name] = new Float32Array(width * height * PLANE_CHANNELS[name]).fill(NEUTRAL[name]);
  }
  return { width, height, ...made };
}

/**
 * A layer of another size in the memory of `store` where it fits, all neutral. Bands are many and
 * the first touch of fresh memory costs more than filling it.
 */
export function reuseLayer(
  store: AnyLayer,
  planes: readonly PlaneName[],
  width: number,
  height: number,
): AnyLayer {
  const made: { -readonly [Name in PlaneName]?: Float32Array } = {};
  for (const name of planes) {
    const length = width * height * PLANE_CHANNELS[name];
    const old = store[name];
    const fits = old !== undefined && old.buffer.byteLength >= length * 4;
    made[name] = (fits ? new Float32Array(old.buffer, 0, length) : new Float32Array(length)).fill(
      NEUTRAL[name],
    );
  }
  return { width, height, ...made };
}
