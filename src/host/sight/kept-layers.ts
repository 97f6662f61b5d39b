import { type KeptPlanes, layerBytes, openPlanes } from '../../render/kept-planes.ts';
import type { LayerPlace, LentLayer, TextureKeeper } from '../../render/textures.ts';
import { holdsPatch, type Patch } from '../../repeat/patch.ts';
import { type KeptThing, keyOf, type SightMemory } from './memory.ts';
import { modelKey } from './model-key.ts';

interface KeptTexture extends KeptThing {
  readonly patch?: Patch;
  readonly planes: KeptPlanes;
  users: number;
  isPainted: boolean;
  /** Ends when whoever fills it is done, well or not. */
  filling: Promise<void>;
}

/**
 * Keeps the layers of the windows looked at last, as they were painted: opacity, blend, paper, masks and the order of
 * steps are laid anew from them. A window inside another is served by it.
 */
export class KeptLayers implements TextureKeeper {
  readonly #memory: SightMemory;
  readonly #layers = new Map<string, KeptTexture[]>();
  /** How many were painted, and how many served without painting. */
  readonly counts = { painted: 0, served: 0 };

  constructor(memory: SightMemory) {
    this.#memory = memory;
  }

  /** Models are kept elsewhere: looks that are given up share them. */
  findPrepared(): undefined {
    return undefined;
  }

  keepPrepared(_order: unknown, prepared: Promise<unknown>): void {
    prepared.catch(() => {});
  }

  async lendLayer(place: LayerPlace, mayWait: boolean): Promise<LentLayer | undefined> {
    const key = layerKey(place);
    for (;;) {
      const kept = (this.#layers.get(key) ?? []).find((one) => serves(one, place));
      if (!kept) return this.#begin(key, place);
      if (!kept.isPainted && !mayWait) return undefined;
      kept.users++;
      await kept.filling;
      if (kept.isPainted) return this.#lend(kept);
      // Whoever was filling it gave up.
      kept.users--;
    }
  }

  #lend(kept: KeptTexture): LentLayer {
    this.counts.served++;
    this.#memory.use(kept);
    const end = () => void kept.users--;
    return { planes: kept.planes, patch: kept.patch, isPainted: true, end };
  }

  #begin(key: string, place: LayerPlace): LentLayer | undefined {
    const bytes = layerBytes(place);
    if (!this.#memory.hasRoomFor(bytes)) return undefined;
    let settle = () => {};
    const kept: KeptTexture = {
      bytes,
      patch: place.patch,
      planes: openPlanes(place, (size) => new SharedArrayBuffer(size)),
      users: 1,
      isPainted: false,
      filling: new Promise((resolve) => {
        settle = resolve;
      }),
      get isUsed() {
        return this.users > 0;
      },
      drop: () => this.#remove(key, kept),
    };
    this.#layers.set(key, [kept, ...(this.#layers.get(key) ?? [])]);
    this.#memory.use(kept);
    return {
      planes: kept.planes,
      patch: kept.patch,
      isPainted: false,
      end: (isPainted) => {
        kept.users--;
        kept.isPainted = isPainted;
        if (isPainted) this.counts.painted++;
        else {
          this.#memory.forget(kept);
          this.#remove(key, kept);
        }
        settle();
      },
    };
  }

  #remove(key: string, kept: KeptTexture): void {
    const left = (this.#layers.get(key) ?? []).filter((one) => one !== kept);
    if (left.length > 0) this.#layers.set(key, left);
    else this.#layers.delete(key);
  }
}

function serves({ patch }: KeptTexture, place: LayerPlace): boolean {
  return patch === undefined || (place.patch !== undefined && holdsPatch(patch, place.patch));
}

/** All but which patch of the plane. */
function layerKey({ order, planes, grid, follows, width, height, light, keepsRelief, patch }: LayerPlace) {
  const { tileWidth, tileHeight, mmPerPixelX, mmPerPixelY, repeat } = grid;
  const pixels = [tileWidth, tileHeight, mmPerPixelX, mmPerPixelY, patch ? 'patch' : [width, height]];
  return keyOf([modelKey(order), planes, pixels, follows ? repeat.layout : '', light ?? '', keepsRelief]);
}
