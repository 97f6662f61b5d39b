import type { BlendMode } from '../colour/blend.ts';
import type { EffectDescription } from './description.ts';
import type { EffectOrder } from './orders.ts';

/** Where a step applies: on colours of the artwork, or where a grey picture is white. */
export interface StepMask {
  /** `#rrggbb` */
  readonly colours?: readonly string[];
  /** CIEDE2000 up to which a colour counts, and over how much more it fades out. */
  readonly tolerance?: number;
  readonly softness?: number;
  /** Path of a picture the size of the tile. */
  readonly picture?: string;
  /** True to apply everywhere but there. */
  readonly spare?: boolean;
}

/** A step of a recipe with everything looked up and checked. */
export interface RenderStep {
  readonly effect: string;
  readonly version: string;
  readonly preset?: string;
  /** What the effect says that it paints and reads, before anything of it has run. */
  readonly declares: Pick<EffectDescription, 'planes' | 'reads' | 'lightFrom'> & {
    /** The names of its picture parameters; none where absent. */
    readonly pictures?: readonly string[];
  };
  readonly order: EffectOrder;
  readonly blend: BlendMode;
  readonly opacity: number;
  /** `#rrggbb` */
  readonly paper: string;
  readonly mask?: StepMask;
}

/** What paint is taken to stand on where nobody says otherwise. */
export const WHITE_PAPER = '#ffffff';
