import { createHash } from 'node:crypto';
import type { MaskSource } from '../../../host/sight/order.ts';
import { readMask } from '../../../picture/index.ts';
import type { RenderStep } from '../../../render/step.ts';
import { fitGrid, type Grid } from '../../../repeat/grid.ts';
import type { Layout } from '../../../repeat/layout.ts';
import type { Size } from '../../../repeat/length.ts';
import { OPENED, RESIST, type Resist } from '../../words/work.ts';
import type { Artworks } from '../opened/artworks.ts';
import { GrowingResist, requireResist } from './painted-resist.ts';

/** Masks that are kept between looks: a few steps', and those before the last strokes. */
const MOST_KEPT = 16;

/** Pixels of a resist as it is looked at: a brush is soft, and a screen has no more. */
const MOST_PIXELS = 2e6;

/** Where the samples of masks come from that are no files a recipe could name. */
export interface MaskSources {
  readonly resists: Readonly<Record<string, Resist>>;
  readonly artworks: Pick<Artworks, 'pathOf'>;
  readonly masks: KeptMasks;
}

/** The last masks that were looked at: the same strokes come to the same samples. */
export class KeptMasks {
  readonly #kept = new Map<string, Promise<MaskSource>>();
  readonly growing = new GrowingResist();

  find(key: string, make: () => Promise<MaskSource>): Promise<MaskSource> {
    const found = this.#kept.get(key) ?? make();
    this.#kept.delete(key);
    this.#kept.set(key, found);
    found.catch(() => this.#kept.delete(key));
    if (this.#kept.size > MOST_KEPT) this.#kept.delete(this.#kept.keys().next().value!);
    return found;
  }

  /** A picture that changed on disk is read again. */
  forget(): void {
    this.#kept.clear();
  }
}

/**
 * The samples of every step's mask picture, where it has one.
 *
 * @param tile The pixels that there are of the artwork; none for a texture alone.
 * @throws Fault (usage) for one that was never opened or painted; Fault (input) for one that cannot be read.
 */
export function maskSources(
  steps: readonly Pick<RenderStep, 'mask'>[],
  sources: MaskSources,
  repeat: Size & { readonly layout: Layout },
  tile?: { readonly width: number; readonly height: number },
): Promise<(MaskSource | undefined)[]> {
  const grid = drawnGrid(repeat, tile);
  return Promise.all(
    steps.map(async ({ mask }) => {
      const { picture } = mask ?? {};
      if (picture === undefined) return undefined;
      if (picture.startsWith(RESIST)) return resistSource(picture.slice(RESIST.length), sources, grid);
      const path = sources.artworks.pathOf(picture.slice(OPENED.length));
      return sources.masks.find(picture, () => readMask(path));
    }),
  );
}

function resistSource(name: string, { resists, masks }: MaskSources, grid: Grid): Promise<MaskSource> {
  const resist = requireResist(resists, name);
  const { tileWidth: width, tileHeight: height, repeat } = grid;
  const key = createHash('sha256')
    .update(JSON.stringify([resist, width, height, repeat]))
    .digest('hex');
  return masks.find(key, async () => ({ samples: masks.growing.samples(resist, grid), width, height }));
}

/** As fine as the artwork, but for a large one. */
function drawnGrid(
  repeat: Size & { readonly layout: Layout },
  tile?: { readonly width: number; readonly height: number },
): Grid {
  const most = Math.sqrt(MOST_PIXELS / (repeat.width * repeat.height));
  return fitGrid(repeat, tile ? Math.min(most, tile.width / repeat.width) : most);
}
