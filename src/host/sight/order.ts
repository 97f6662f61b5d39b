import type { Frame } from '../../colour/frame.ts';
import type { Light } from '../../composite/light.ts';
import type { Quality, Report } from '../../effect/effect.ts';
import type { Follow } from '../../render/follow.ts';
import type { RenderStep } from '../../render/step.ts';
import type { Layout } from '../../repeat/layout.ts';
import type { Size } from '../../repeat/length.ts';
import type { SightArtwork } from './artwork.ts';

/** A rectangle of the plane, mm from the tile's upper left corner, anywhere. */
export interface PlanePart extends Size {
  readonly left: number;
  readonly top: number;
}

/** The samples of a grey picture of the whole tile: 0 nothing, 255 all; of any number of pixels in its shape. */
export interface MaskSource {
  readonly samples: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** What is to be seen. */
export interface SightOrder {
  /** What is laid over; the ground where absent. */
  readonly artwork?: SightArtwork;
  /** `#rrggbb` under a texture alone. */
  readonly ground: string;
  readonly layout: Layout;
  /** mm of one tile. */
  readonly size: Size;
  /** None: the artwork as it is. */
  readonly steps: readonly RenderStep[];
  /** In the order of the steps, for those whose mask is a picture: the path that such a step names is not read. */
  readonly masks?: readonly (MaskSource | undefined)[];
  readonly follow: Follow;
  /** As usual where absent. */
  readonly light?: Light;
  readonly quality: Quality;
  /** Pixels per mm that can be shown. */
  readonly density: number;
  /** What is wanted of the plane; one whole period (the unfolded box) where absent. */
  readonly part?: PlanePart;
}

/** What was seen. */
export interface Seen {
  /** 8-bit straight RGBA. To be read alone: it may be kept for other looks. */
  readonly frame: Frame;
  /** mm that it really shows: as many whole pixels as hold what was asked. */
  readonly part: PlanePart;
  /** How whole periods stand: straight, drop or brick. */
  readonly layout: Layout;
  /** True where it has fewer pixels per mm than were asked. */
  readonly isCoarse: boolean;
  /** Of every step. */
  readonly reports: readonly (readonly Report[])[];
  /** The share of what is shown that each mask let through, 0..1; none for a step without a mask. */
  readonly laidOn: readonly (number | undefined)[];
  /** ms: until all was prepared, and painting. */
  readonly timings: { readonly prepare: number; readonly paint: number };
}
