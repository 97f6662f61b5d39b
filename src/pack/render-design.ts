import type { Frame } from '../colour/frame.ts';
import { shareBlank } from '../colour/samples.ts';
import type { AnyLayer } from '../effect/layer.ts';
import { recolourFrame } from '../host/ink/recolour-frame.ts';
import { layTile, type RenderProgress } from '../host/lay-tile.ts';
import { readMasks } from '../host/mask-pictures.ts';
import { openSeamEyes } from '../host/seam-eyes.ts';
import type { SeamReport } from '../inspect/index.ts';
import { readPicture } from '../picture/index.ts';
import { unfoldFrame } from '../render/frame.ts';
import { openPlanes } from '../render/kept-planes.ts';
import { resampleNotes, resampleTile } from '../render/resample.ts';
import type { LayerPlace, TextureKeeper } from '../render/textures.ts';
import type { Grid } from '../repeat/grid.ts';
import { unfold } from '../repeat/unfold.ts';
import type { Design } from './design.ts';
import type { LaidStep } from './layers.ts';

/** A design as it is printed, and what it was made of. */
export interface RenderedDesign {
  readonly print: Frame;
  readonly grid: Grid;
  /** The artwork below it, laid out as the print is. */
  readonly artwork: Frame;
  readonly steps: readonly LaidStep[];
  readonly seams: SeamReport;
  readonly notes: readonly string[];
  readonly warnings: readonly string[];
}

/**
 * Renders a design by the way that every tile goes.
 *
 * @param scratch A file for the picture meanwhile, .png.
 */
export async function renderDesign(
  design: Design,
  scratch: string,
  progress: RenderProgress,
): Promise<RenderedDesign> {
  return design.steps.length === 0 ? readDesign(design) : layDesign(design, scratch, progress);
}

async function readDesign({ tile, grid }: Design): Promise<RenderedDesign> {
  const picture = await readPicture(tile.path);
  const print = resampleTile(picture, grid);
  const eyes = openSeamEyes();
  try {
    const seams = await eyes.check(print, grid.repeat.layout);
    const notes = [...picture.notes, ...resampleNotes(picture, grid, true)];
    return { print, grid, artwork: print, steps: [], seams, notes, warnings: [] };
  } finally {
    await eyes.close();
  }
}

async function layDesign(design: Design, scratch: string, progress: RenderProgress): Promise<RenderedDesign> {
  const { tile, grid, steps, follow, light, inks, screens } = design;
  const { layout, width, height } = grid.repeat;
  const keeper = openKeeper();
  const at = grid.tileWidth === tile.width ? undefined : 1 / grid.mmPerPixelX;
  const look = { steps, follow, light, inks, screens };
  const request = { tile: tile.path, layout, size: { width, height }, at, fit: true, ...look };
  const report = await layTile(
    { ...request, out: scratch, overwrite: true },
    { ...progress, memory: { textures: keeper.textures } },
  );
  const print = await readPicture(scratch);
  const picture = await readPicture(tile.path);
  if (inks) await recolourFrame(picture, inks, progress);
  const flat = resampleTile(picture, grid);
  const isUnfolded = print.width > flat.width || print.height > flat.height;
  const masks = await readMasks(steps, grid);
  const laid = steps.map((step, index): LaidStep => {
    const mask = masks[index];
    return {
      step,
      layer: keeper.layerOf(step.order),
      mask:
        mask && isUnfolded
          ? unfold(layout, mask, flat.width, flat.height, 1, new Uint8Array(print.width * print.height))
          : mask,
    };
  });
  return {
    print,
    grid: report.grid,
    artwork: isUnfolded ? unfoldFrame(flat, grid) : flat,
    steps: laid,
    seams: report.seams,
    notes: report.notes,
    warnings: report.warnings,
  };
}

/** Keeps the texture of each step as it was painted. */
function openKeeper() {
  const kept: { place: LayerPlace; layer: AnyLayer }[] = [];
  const textures: TextureKeeper = {
    findPrepared: () => undefined,
    keepPrepared: () => {},
    async lendLayer(place) {
      const planes = openPlanes(
        place,
        (bytes) => shareBlank(new Uint8Array(), bytes).buffer as SharedArrayBuffer,
      );
      kept.push({ place, layer: { width: place.width, height: place.height, ...planes } });
      return { planes, isPainted: false, end: () => {} };
    },
  };
  return {
    textures,
    layerOf(order: { readonly name: string; readonly seed: string }): AnyLayer | undefined {
      const index = kept.findIndex(
        ({ place }) => place.order.effect.name === order.name && place.order.effect.seed === order.seed,
      );
      // Steps are lent their layers in order, so two alike are told apart by it.
      return index < 0 ? undefined : kept.splice(index, 1)[0].layer;
    },
  };
}
