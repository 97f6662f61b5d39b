import type { MaskRecipe, RecipeStep } from '../../host/plugins/recipe.ts';
import type { Follow } from '../../render/follow.ts';
import type { Size } from '../../repeat/length.ts';

/** What stands in for the path of a mask picture, before a resist is saved beside its recipe: `resist:NAME`. */
export const RESIST = 'resist:';
/** The same for a picture that was opened on the page: `opened:ID`, and of a parameter `opened:ID/NAME`. */
export const OPENED = 'opened:';

/** As the page names the picture of a parameter that was opened: its name leads nowhere, and states no size. */
export function openedName(id: string, name: string): string {
  return `${OPENED}${id}/${name.replaceAll(/[/\\@]/g, '-')}`;
}

/** One step of a laying, with a name of its own that it keeps wherever it is moved to. */
export interface WorkStep extends Omit<RecipeStep, 'mask'> {
  readonly id: string;
  /** True while it is held off: it stays on the ticket and is not laid. */
  readonly held?: boolean;
  /** As in a recipe; its picture is a path, `resist:NAME` or `opened:ID`. */
  readonly mask?: MaskRecipe;
}

/** What is laid: a recipe under work. */
export interface Laying {
  readonly steps: readonly WorkStep[];
  readonly seed: string;
  readonly follow?: Follow;
  readonly light?: { readonly direction?: number; readonly elevation?: number; readonly gloss?: number };
}

/** One stroke of the brush on the cloth, in mm of the plane; it is laid over every seam as the tile is. */
export interface Stroke {
  /** Of the brush, mm. */
  readonly width: number;
  /** 0 a crisp edge .. 1 soft from the middle on. */
  readonly softness: number;
  /** True where it takes resist away. */
  readonly erases?: boolean;
  /** x, y (mm from the tile's upper left corner, anywhere on the plane) and pressure (0..1), three numbers a point. */
  readonly points: readonly number[];
}

/** Where a step is kept from (or, turned round, laid), painted on the cloth. White, 1, is where a stroke went. */
export interface Resist {
  readonly strokes: readonly Stroke[];
}

/** A trial that was pinned. */
export interface Trial {
  readonly id: string;
  readonly name: string;
  readonly laying: Laying;
}

/** All that a person has made of one design on the page. Plain JSON; undone and redone by the page, kept on disk by the server. */
export interface Work {
  readonly version: 1;
  /** The opened artwork; none for a texture alone over `ground`. */
  readonly tile?: string;
  /** `#rrggbb` under a texture alone. */
  readonly ground: string;
  /** As `parseLayout` reads it. */
  readonly layout: string;
  /** mm of one tile. */
  readonly size: Size;
  readonly laying: Laying;
  /** By name. */
  readonly resists: Readonly<Record<string, Resist>>;
  readonly trials: readonly Trial[];
}
