import { type KeptPlanes, layerBytes, openPlanes } from '../../render/kept-planes.ts';
import { layerPlace, prepareOrder } from '../../render/layer-place.ts';
import type { Prepared, PrepareOrder } from '../../render/orders.ts';
import type { LayerPlace, LentLayer, TextureKeeper } from '../../render/textures.ts';
import { canonicalJson, sha256 } from '../disk/hash.ts';
import type { Item } from '../plan/item.ts';
import type { Blocks } from './blocks.ts';
import type { Kept, Memory } from './memory.ts';

interface KeptModel extends Kept {
  readonly prepared: Promise<Prepared>;
}

interface KeptTexture extends Kept {
  users: number;
  readonly planes: KeptPlanes;
  isPainted: boolean;
  /** Ends when whoever fills it is done, well or not. */
  filling: Promise<void>;
}

/**
 * Keeps models and painted layers as long as items that still wait will use them, and there is room.
 * Every item that was planned is counted, so what nobody needs any more goes at once.
 */
export class TextureStore implements TextureKeeper {
  readonly counts = { prepared: 0, painted: 0 };
  readonly #memory: Memory;
  readonly #blocks: Blocks;
  readonly #models = new Map<string, KeptModel>();
  readonly #layers = new Map<string, KeptTexture>();
  /** Items to come that use it, by the key of a model or layer. */
  readonly #uses = new Map<string, number>();
  /** Layers that somebody under way will fill, if there is room. */
  readonly #promised = new Set<string>();

  constructor(memory: Memory, blocks: Blocks) {
    this.#memory = memory;
    this.#blocks = blocks;
  }

  /** Counts an item that will be made. */
  expect(item: Item): void {
    for (const key of keysOf(item)) this.#uses.set(key, (this.#uses.get(key) ?? 0) + 1);
  }

  /** An item is under way: others that share its layers do well to wait until these are painted. */
  begin(item: Item): void {
    for (const key of layerKeysOf(item)) {
      if ((this.#uses.get(key) ?? 0) > 1 && !this.#layers.get(key)?.isPainted) this.#promised.add(key);
    }
  }

  end(item: Item): void {
    for (const key of layerKeysOf(item)) this.#promised.delete(key);
  }

  /** True while somebody else is about to paint what the item could then have for nothing. */
  isPromised(item: Item): boolean {
    return layerKeysOf(item).some((key) => this.#promised.has(key) && !this.#layers.get(key)?.isPainted);
  }

  /** An item is made, or will not be: what it alone still needed is given up. */
  release(item: Item): void {
    for (const key of keysOf(item)) {
      const left = (this.#uses.get(key) ?? 1) - 1;
      this.#uses.set(key, left);
      if (left > 0) continue;
      this.#uses.delete(key);
      const model = this.#models.get(key);
      if (model && !model.isUsed) this.#memory.forget(model);
      const layer = this.#layers.get(key);
      if (layer && !layer.isUsed) this.#giveUp(layer);
    }
  }

  findPrepared(order: PrepareOrder): Promise<Prepared> | undefined {
    const kept = this.#models.get(modelKey(order));
    if (!kept) return undefined;
    return kept.prepared.then((prepared) => {
      this.counts.prepared++;
      return prepared;
    });
  }

  keepPrepared(order: PrepareOrder, prepared: Promise<Prepared>): void {
    const key = modelKey(order);
    if ((this.#uses.get(key) ?? 0) < 2) {
      prepared.catch(() => {});
      return;
    }
    const waiting: KeptModel = { prepared, bytes: 0, isUsed: true, drop: () => this.#models.delete(key) };
    this.#models.set(key, waiting);
    prepared.then(
      (made) => this.#settle(key, waiting, bytesOf(made.model)),
      () => this.#models.delete(key),
    );
  }

  async lendLayer(place: LayerPlace, mayWait: boolean): Promise<LentLayer | undefined> {
    const key = layerKey(place);
    const kept = this.#layers.get(key);
    if (!kept) return this.#begin(key, place);
    if (!kept.isPainted && !mayWait) return undefined;
    kept.users++;
    await kept.filling;
    if (!kept.isPainted) {
      this.#end(key, kept);
      return undefined;
    }
    this.counts.painted++;
    return { planes: kept.planes, isPainted: true, end: () => this.#end(key, kept) };
  }

  /** A model counts from when its size is known; where there is no room it serves only who waits for it. */
  #settle(key: string, waiting: KeptModel, bytes: number): void {
    if (this.#models.get(key) !== waiting) return;
    this.#models.delete(key);
    if ((this.#uses.get(key) ?? 0) < 1 || !this.#memory.take(bytes)) return;
    const kept: KeptModel = { ...waiting, bytes, isUsed: false };
    this.#models.set(key, kept);
    this.#memory.keep(kept);
  }

  #begin(key: string, place: LayerPlace): LentLayer | undefined {
    const bytes = layerBytes(place);
    if ((this.#uses.get(key) ?? 0) < 2 || !this.#memory.take(bytes)) return undefined;
    let settle = () => {};
    const kept: KeptTexture = {
      bytes,
      users: 1,
      planes: openPlanes(place, (size) => this.#blocks.take(size)),
      isPainted: false,
      filling: new Promise((resolve) => {
        settle = resolve;
      }),
      get isUsed() {
        return this.users > 0;
      },
      drop: () => this.#layers.delete(key),
    };
    this.#layers.set(key, kept);
    this.#memory.keep(kept);
    return {
      planes: kept.planes,
      isPainted: false,
      end: (isPainted) => {
        kept.isPainted = isPainted;
        settle();
        this.#end(key, kept);
      },
    };
  }

  #end(key: string, kept: KeptTexture): void {
    kept.users--;
    if (kept.users > 0) return;
    if (!kept.isPainted || !this.#uses.has(key)) this.#giveUp(kept);
  }

  #giveUp(kept: KeptTexture): void {
    this.#memory.forget(kept);
    for (const plane of Object.values(kept.planes)) this.#blocks.giveBack(plane.buffer as SharedArrayBuffer);
  }
}

const keysOfItems = new WeakMap<Item, readonly string[]>();

/** The keys of all that an item's steps prepare and paint. */
function keysOf(item: Item): readonly string[] {
  const known = keysOfItems.get(item) ?? makeKeys(item);
  keysOfItems.set(item, known);
  return known;
}

function layerKeysOf(item: Item): readonly string[] {
  return keysOf(item).filter((key) => key.startsWith('layer'));
}

function makeKeys(item: Item): string[] {
  const keys = item.steps.flatMap((step, index) => {
    const place = layerPlace(item, index);
    return [modelKey(prepareOrder(item, step)), ...(place ? [layerKey(place)] : [])];
  });
  return [...new Set(keys)];
}

function modelKey({ effect, box, quality, artwork }: PrepareOrder): string {
  const { moduleUrl, parameters, seed } = effect;
  return `model ${sha256(canonicalJson([moduleUrl, parameters, seed, box, quality, artwork?.id ?? '']))}`;
}

/** Where the texture follows the artwork, the mirror lines of the layout shape the layer as well. */
function layerKey({ order, grid, follows, width, height, light, keepsRelief }: LayerPlace): string {
  const layout = follows ? grid.repeat.layout : undefined;
  const kept = { model: modelKey(order), width, height, layout, light, keepsRelief };
  return `layer ${sha256(canonicalJson(kept))}`;
}

/** Of the numbers in a model; its other parts are small beside them. */
function bytesOf(model: unknown, seen = new Set<unknown>()): number {
  if (typeof model !== 'object' || model === null || seen.has(model)) return 8;
  seen.add(model);
  if (ArrayBuffer.isView(model)) {
    if (seen.has(model.buffer)) return 0;
    seen.add(model.buffer);
    return model.buffer.byteLength;
  }
  return Object.values(model).reduce<number>((sum, inner) => sum + bytesOf(inner, seen), 16);
}
