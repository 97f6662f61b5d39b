import type { BlendMode } from '../colour/blend.ts';
import type { RandomStream } from '../field/random.ts';
import type { Box } from '../repeat/repeat.ts';
import type { Artwork } from './artwork.ts';
import type { AnyLayer, PlaneName, Readable, ReadablePlane, TextureLayer } from './layer.ts';
import type { ParameterSet, PictureNames, Unit, ValuesOf } from './parameter.ts';
import type { Picture } from './picture.ts';

/** The version of the contract below. Since 2 there are lists, palettes, texts and pictures, the plane `relief` and `reads` (of planes, and of the artwork); since 3 the plane `parting`. */
export const API_VERSION = 3;

/** The oldest version still understood; a plugin made for an older or a newer one is refused at load. */
export const OLDEST_API_VERSION = 1;

/** A figure an effect wants its user to know, such as a thread count that was snapped to close. */
export interface Report {
  /** What it is, as the user reads it: `ends`, `petals`. */
  readonly name: string;
  /** What it came to, in `unit`; a number is printed with three decimals at most. */
  readonly value: number | string;
  /** The unit of `value` and `asked`; none is printed where absent. */
  readonly unit?: Unit;
  /** What was asked, in `unit`, where that is not what came; not printed where absent. */
  readonly asked?: number | string;
}

/**
 * How much work `prepare` may do: `finished` for what goes to print, `sketch` for a first look within a
 * second. A sketch has the same composition (the same points, the same noise) on a coarser grid.
 */
export type Quality = 'finished' | 'sketch';

/** Everything `prepare` may depend on. Frozen. */
export interface Setting<P extends ParameterSet = ParameterSet> {
  /** Validated, in the declared units. */
  readonly parameters: ValuesOf<P>;
  /** What the texture must close over, in mm; never a reflected layout. */
  readonly box: Box;
  /** The seed of the render, for messages; numbers are drawn from `random`. */
  readonly seed: string;
  /** How much work to do; effects that prepare quickly need not look at it. */
  readonly quality: Quality;
  /** A random stream of this render; ask for one per purpose. */
  random(name: string): RandomStream;
  /**
   * The picture that a parameter names: the same object however often it is asked for. Its samples may stand in
   * the model, where they take no room of the effect's own.
   *
   * @param name Of a parameter made by `picture`.
   */
  picture(name: PictureNames<P>): Picture;
  /** Tells the user a figure, such as a count that was snapped to close; printed beside the effect. */
  report(figure: Report): void;
  /** How far prepare has come, 0..1. Long loops call it often: it throws where the render was given up. */
  progress(done: number): void;
}

/**
 * A rectangle of the infinite plane at some density, in whole pixels, NOT wrapped into the box.
 * The centre of pixel (i, j) of the band lies at ((x + i + 0.5) * mmPerPixelX, (y + j + 0.5) * mmPerPixelY).
 */
export interface Band {
  /** The first pixel from the left, counted from the origin of the plane; may be below 0. */
  readonly x: number;
  /** The first row of pixels from above, counted from the origin of the plane; may be below 0. */
  readonly y: number;
  /** Pixels across. */
  readonly width: number;
  /** Pixels down. */
  readonly height: number;
  /** Width of a pixel in mm: 25.4 / dpi. */
  readonly mmPerPixelX: number;
  /** Height of a pixel in mm. */
  readonly mmPerPixelY: number;
}

/** An effect: one plain object. */
export interface Effect<
  P extends ParameterSet = ParameterSet,
  Planes extends PlaneName = PlaneName,
  Model = unknown,
  Reads extends Readable = never,
> {
  /** The version of the contract it was written for, see `API_VERSION`. */
  readonly apiVersion: number;
  /** Lower case words with hyphens; the name people write. */
  readonly name: string;
  /** Semantic version of the effect itself. */
  readonly version: string;
  /** One line: what it looks like. */
  readonly summary: string;
  /** What can be set, by name, each made by `numeric`, `choice`, `colour` or `toggle`; `{}` for none. */
  readonly parameters: P;
  /** What an earlier version took, by name, and what to write instead: told to whoever still gives it; nothing where absent. */
  readonly retired?: Readonly<Record<string, string>>;
  /**
   * What it does, in the words of the craft, with a slot in braces where a value stands: `A {weave} weave of {ends}
   * and {picks}.` A value brings its unit; `{turned: turned back | running on}` says both of a switch, and as many
   * phrases as there are options those of a choice. A parameter stands in one slot at most, and those that stand
   * in none get a plain line each, as all do where it is absent. 1 to 12 of 300 characters at most.
   */
  readonly sentences?: readonly string[];
  /** The planes it may paint; the others stay neutral and cost nothing. */
  readonly planes: readonly Planes[];
  /**
   * What it wants to see; default nothing. `artwork` is handed to `prepare` as `setting.artwork`: as it was
   * before the first step. Planes of the steps laid before it are handed to `paint`: over the same band reliefs
   * are summed, loads and shades multiplied, tints laid one over the other, each weighed by its step's mask
   * and opacity; all is neutral where nothing is below.
   */
  readonly reads?: readonly Reads[];
  /**
   * For an effect that lights itself: the parameter, a number in deg, that says where its light comes from. A
   * light that a recipe or a command states is put in its place, so that all steps stand in one; none where absent.
   */
  readonly lightFrom?: string;
  /** How its tint is laid unless a preset or recipe says otherwise; default `normal`. */
  readonly blend?: BlendMode;
  /**
   * The planes that these values really need, so that the others cost nothing; all declared where absent.
   * Among `planes`, the same for the same values. One that is left out at an end of a number has come to nothing
   * there: it is not missed.
   */
  planesFor?(parameters: ValuesOf<P>): readonly Planes[];
  /**
   * Runs once per render; may be async: a promise is waited for. Returns plain data (numbers, text, arrays,
   * typed arrays), which is sent to workers. Knows nothing of pixels: the same model serves every density.
   */
  prepare(setting: ReadingSetting<P, Reads>): Model | Promise<Model>;
  /**
   * Fills the planes for a band; called many times, in any order, on any worker. Must depend on nothing but
   * its arguments, and must not be async.
   *
   * @param below What `reads` names, of the steps laid before; not to be written.
   */
  paint(model: Model, band: Band, layer: TextureLayer<Planes>, ...below: Below<Reads>): void;
}

/** The setting of an effect that reads `Reads`: one that reads the artwork has it. */
export type ReadingSetting<P extends ParameterSet, Reads extends Readable> = Setting<P> &
  ('artwork' extends Reads ? ArtworkSetting : unknown);

/** What the setting of an effect that reads the artwork has besides. */
export interface ArtworkSetting {
  /** The artwork; where a texture is made alone, the plain ground. */
  readonly artwork: Artwork;
}

/** The fourth argument of `paint`, for an effect that reads what was laid before it. */
export type Below<Reads extends Readable> = [Exclude<Reads, 'artwork'>] extends [never]
  ? []
  : [below: TextureLayer<Extract<Reads, ReadablePlane>>];

/** An effect whose own types are no longer known: what the host handles. */
// biome-ignore lint/suspicious/noExplicitAny: a list of effects with different models has no narrower type
export type AnyEffect = Omit<Effect<any, any, any, any>, 'paint' | 'prepare'> & {
  /** As `Effect.prepare`; its setting has the artwork where the effect reads it. */
  // biome-ignore lint/suspicious/noExplicitAny: as above
  prepare(setting: Setting<any>): unknown;
  /** As `Effect.paint`. */
  paint(model: unknown, band: Band, layer: never, below?: AnyLayer): void;
};

/** Gives an effect its types; returns it unchanged. */
export function defineEffect<
  const P extends ParameterSet,
  const Planes extends PlaneName,
  Model,
  const Reads extends Readable = never,
>(effect: Effect<P, Planes, Model, Reads>): Effect<P, Planes, Model, Reads> {
  return effect;
}
