import type { BlendMode } from '../colour/blend.ts';
import type { Light } from '../composite/light.ts';
import type { Quality, Report } from '../effect/effect.ts';
import type { PlaneName, ReadablePlane } from '../effect/layer.ts';
import type { Picture } from '../effect/picture.ts';
import type { Grid } from '../repeat/grid.ts';
import type { Patch } from '../repeat/patch.ts';
import type { Box } from '../repeat/repeat.ts';
import type { ArtworkField } from './artwork-field.ts';
import type { KeptLayer } from './kept-planes.ts';
import type { Space } from './space.ts';

/** An effect with its settings, as a worker needs it. Plain data. */
export interface EffectOrder {
  readonly name: string;
  readonly version: string;
  readonly moduleUrl: string;
  readonly parameters: Readonly<Record<string, unknown>>;
  readonly seed: string;
  /** What its picture parameters name, by the names of these, once it has been read; shared. */
  readonly pictures?: Readonly<Record<string, SharedPicture>>;
}

/** A picture that a parameter names, as the host read it. */
export interface SharedPicture extends Picture {
  /** Of the file's bytes: another picture under the same name is told from it by that. */
  readonly sha256: string;
}

/** Where a step applies. Samples are shared, 0..255, of the whole frame. */
export type MaskOrder = { readonly laid: LaidCount } & (
  | {
      readonly kind: 'colours';
      /** `#rrggbb` */
      readonly colours: readonly string[];
      readonly tolerance: number;
      readonly softness: number;
      readonly spare: boolean;
    }
  | { readonly kind: 'picture'; readonly samples: Uint8Array; readonly spare: boolean }
);

/**
 * One shared number: how much the mask has let through so far, in 65536ths of a pixel. Whole numbers add
 * up to the same in any order, so the share is the same for any number of workers.
 */
export type LaidCount = BigInt64Array;

/** One step of a pass: an effect that is prepared, and how its layer is laid. */
export interface StepOrder extends EffectOrder {
  readonly model: unknown;
  readonly planes: readonly PlaneName[];
  /** Of the steps before it. */
  readonly reads: readonly ReadablePlane[];
  /** True for a step of an earlier pass that is painted again because one of this pass reads it. */
  readonly isOnlyRead?: boolean;
  readonly blend: BlendMode;
  readonly opacity: number;
  /** `#rrggbb` */
  readonly paper: string;
  readonly mask?: MaskOrder;
  /** Its layer over the whole frame, where that is shared with other renders. */
  readonly kept?: KeptLayer;
}

/** A picture of the whole frame on a grid of its own; shared. */
export interface SoftPicture {
  readonly grid: Grid;
  readonly samples: Uint8Array | Uint16Array;
}

/** Where the pictures of a pass lie on the plane, where it paints a patch of it alone. */
export interface PassPatches {
  readonly target: Patch;
  readonly source: Patch;
  readonly original: Patch;
}

/**
 * One way over all bands of the frame. The frame is the unfolded box, or one tile where the
 * texture follows the artwork of a reflected layout, or a patch of the plane.
 */
export interface PassOrder {
  readonly grid: Grid;
  readonly frame: Space;
  /** Of the frame `patch`. */
  readonly patches?: PassPatches;
  /** True where textures follow the artwork of a reflected layout. */
  readonly follows: boolean;
  /** That raised surfaces stand in. */
  readonly light: Light;
  readonly width: number;
  readonly height: number;
  readonly bandRows: number;
  /** RGBA of the frame; shared. `target` may be `source` where no step shifts. */
  readonly source: Uint8Array | Uint16Array;
  readonly target: Uint8Array | Uint16Array;
  /** The artwork as it was, for masks by colour. */
  readonly original: Uint8Array | Uint16Array;
  /** The number of the next band to take; shared. */
  readonly nextBand: Int32Array;
  readonly steps: readonly StepOrder[];
  /** Where paint runs: the source, softer from level to level; filled before the pass. */
  readonly stack?: readonly SoftPicture[];
  /** True where the stack was filled for an earlier pass from the same source. */
  readonly isSoftened?: boolean;
  /** True to have the range of every plane as well. */
  readonly measure?: boolean;
}

export interface PrepareOrder {
  readonly kind: 'prepare';
  readonly effect: EffectOrder;
  readonly box: Box;
  readonly quality: Quality;
  /** For an effect that reads it; shared. */
  readonly artwork?: ArtworkField;
}

/** Fills one level of a pass's stack from the one before it, or from the artwork. */
export interface SoftenOrder {
  readonly kind: 'soften';
  readonly frame: Space;
  /** 0 is made from the artwork. */
  readonly level: number;
  readonly from: SoftPicture;
  readonly to: SoftPicture;
  readonly bandRows: number;
  /** The number of the next band to take; shared. */
  readonly nextBand: Int32Array;
}

/** A tile that pictures of the plane are drawn from: RGBA, or one sample a pixel, an amount. */
export interface TilePicture {
  readonly pixels: Uint8Array | Uint16Array;
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 4;
}

/** Draws a patch of the plane on a grid from the tile that stands in repeat on it. */
export interface GatherOrder {
  readonly kind: 'gather';
  readonly from: TilePicture;
  readonly grid: Grid;
  readonly patch: Patch;
  /** True to draw the whole tile at half its pixels, fast; `grid` and `patch` are then of the result. */
  readonly isHalved?: boolean;
  /** As many samples a pixel as `from`, and as many bits; shared. */
  readonly to: Uint8Array | Uint16Array;
  readonly bandRows: number;
  /** The number of the next band to take; shared. */
  readonly nextBand: Int32Array;
}

/** What `prepare` of an effect came to. */
export interface Prepared {
  readonly model: unknown;
  /** Bytes of arrays that the model holds and does not own: of pictures that it was given; none where absent. */
  readonly lentBytes?: number;
  readonly planes: readonly PlaneName[];
  readonly reads: readonly ReadablePlane[];
  readonly reports: readonly Report[];
}
