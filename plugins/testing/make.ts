/** An effect prepared for a repeat, and its planes over any rectangle of pixels. */
import {
  type AnyEffect,
  type AnyLayer,
  fitGrid,
  type Grid,
  gridOfPixels,
  neutralLayer,
  type PlaneName,
  parseLayout,
  parseSize,
  type Quality,
  type Report,
  type TextureLayer,
} from 'tenter';
import { openSetting } from 'tenter/render';

export interface Made<Model = unknown> {
  readonly effect: AnyEffect;
  readonly model: Model;
  readonly grid: Grid;
  readonly reports: readonly Report[];
  /** Those that the parameters ask for. */
  readonly planes: AnyEffect['planes'];
}

export interface MakeOptions {
  readonly dpi?: number;
  readonly quality?: Quality;
  readonly seed?: string;
}

type Parameters = Readonly<Record<string, unknown>>;

/**
 * A function that prepares an effect for a repeat.
 *
 * Its `size` is that of the tile, as `41x29mm`; `how` may be the density alone, in dpi.
 */
export function makerOf<Model>(effect: AnyEffect) {
  return (parameters: Parameters, layout: string, size: string, how: number | MakeOptions = {}) => {
    const { dpi = 300, ...options } = typeof how === 'number' ? { dpi: how } : how;
    const grid = fitGrid({ layout: parseLayout(layout), ...parseSize(size) }, dpi / 25.4);
    return make<Model>(effect, parameters, grid, options);
  };
}

/**
 * Prepares an effect for a tile of whole pixels.
 *
 * @param dpi About: the tile is `columns` x `rows` pixels, whatever its size in mm comes to.
 */
export function tryEffect(
  effect: AnyEffect,
  parameters: Parameters,
  layout: string,
  [columns, rows]: readonly [number, number],
  dpi = 300,
  seed = 'try',
): Made {
  const mm = 25.4 / dpi;
  const repeat = { layout: parseLayout(layout), width: columns * mm, height: rows * mm };
  return make(effect, parameters, gridOfPixels(repeat, columns, rows), { seed });
}

function make<Model>(
  effect: AnyEffect,
  parameters: Parameters,
  grid: Grid,
  { quality, seed = 'test' }: Omit<MakeOptions, 'dpi'>,
): Made<Model> {
  const { setting, reports } = openSetting(effect, { box: grid.box, seed, quality, parameters });
  const planes = effect.planesFor?.(setting.parameters) ?? effect.planes;
  return { effect, model: effect.prepare(setting) as Model, grid, reports, planes };
}

/** A function that paints `width` x `height` pixels from (x, y) on; all planes, whatever the parameters ask for. */
export function painterOf<Planes extends PlaneName>(effect: AnyEffect) {
  return (
    { model, grid }: Pick<Made, 'model' | 'grid'>,
    x: number,
    y: number,
    width: number,
    height: number,
    planes: readonly Planes[] = effect.planes,
  ) => paintTried({ effect, model, grid, planes }, x, y, width, height) as TextureLayer<Planes>;
}

/** The planes of a rectangle of pixels, each `scale` times as large as those of the grid. */
export function paintTried(
  { effect, model, grid, planes }: Omit<Made, 'reports'>,
  x: number,
  y: number,
  width: number,
  height: number,
  scale = 1,
): AnyLayer {
  const layer = neutralLayer(planes, width, height);
  const band = {
    x,
    y,
    width,
    height,
    mmPerPixelX: grid.mmPerPixelX * scale,
    mmPerPixelY: grid.mmPerPixelY * scale,
  };
  effect.paint(model, band, layer as never);
  return layer;
}
