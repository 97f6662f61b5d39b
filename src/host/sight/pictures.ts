import type { Frame } from '../../colour/frame.ts';
import { plainFrame } from '../../render/frame.ts';
import { gatherOrder } from '../../render/gather.ts';
import type { TilePicture } from '../../render/orders.ts';
import type { Grid } from '../../repeat/grid.ts';
import type { Patch } from '../../repeat/patch.ts';
import type { SightArtwork } from './artwork.ts';
import { type KeptThing, keyOf, type SightMemory } from './memory.ts';
import type { MaskSource } from './order.ts';
import { type Draw, Pyramid } from './pyramid.ts';

interface KeptPicture extends KeptThing {
  readonly pixels: Uint8Array;
}

/** Draws patches of artworks and masks, and keeps those drawn last. */
export class Pictures {
  readonly #memory: SightMemory;
  readonly #drawCoarser: Draw;
  readonly #kept = new Map<string, KeptPicture>();
  readonly #numbers = new WeakMap<Pyramid, number>();
  readonly #masks = new WeakMap<MaskSource, Pyramid>();
  #last = 0;

  /** @param drawCoarser For what all looks share, and none gives up. */
  constructor(memory: SightMemory, drawCoarser: Draw) {
    this.#memory = memory;
    this.#drawCoarser = drawCoarser;
  }

  /** Artwork, or a ground of one colour, over a patch of the plane; not to be written to. */
  async artwork(
    artwork: SightArtwork | undefined,
    ground: string,
    grid: Grid,
    patch: Patch,
    draw: Draw,
  ): Promise<Frame> {
    const { width, height } = patch;
    if (!artwork) return plainFrame(width, height, ground);
    return { pixels: await this.#draw(artwork.pyramid, grid, patch, draw), width, height };
  }

  /** The samples of a mask over a patch of the plane; not to be written to. */
  mask(mask: MaskSource, grid: Grid, patch: Patch, draw: Draw): Promise<Uint8Array> {
    const pyramid = this.#masks.get(mask) ?? new Pyramid(greyTile(mask));
    this.#masks.set(mask, pyramid);
    return this.#draw(pyramid, grid, patch, draw);
  }

  async #draw(pyramid: Pyramid, grid: Grid, patch: Patch, draw: Draw): Promise<Uint8Array> {
    const { repeat, tileWidth, tileHeight } = grid;
    const key = keyOf([this.#numberOf(pyramid), repeat.layout, tileWidth, tileHeight, patch]);
    const kept = this.#kept.get(key);
    if (kept) {
      this.#memory.use(kept);
      return kept.pixels;
    }
    const order = gatherOrder(await pyramid.levelFor(grid, this.#drawCoarser), grid, patch);
    await draw(order);
    const pixels = order.to as Uint8Array;
    this.#keep(key, pixels);
    return pixels;
  }

  #keep(key: string, pixels: Uint8Array): void {
    if (this.#kept.has(key) || !this.#memory.hasRoomFor(pixels.length)) return;
    const kept: KeptPicture = {
      pixels,
      bytes: pixels.length,
      isUsed: false,
      drop: () => this.#kept.delete(key),
    };
    this.#kept.set(key, kept);
    this.#memory.use(kept);
  }

  #numberOf(pyramid: Pyramid): number {
    const number = this.#numbers.get(pyramid) ?? ++this.#last;
    this.#numbers.set(pyramid, number);
    return number;
  }
}

function greyTile({ samples, width, height }: MaskSource): TilePicture {
  const isShared = samples.buffer instanceof SharedArrayBuffer;
  const pixels = isShared ? samples : new Uint8Array(new SharedArrayBuffer(samples.length));
  if (!isShared) pixels.set(samples);
  return { pixels, width, height, channels: 1 };
}
