import { artworkBytes } from '../../effect/artwork.ts';
import { type ArtworkField, artworkField } from '../../render/artwork-field.ts';
import { plainFrame } from '../../render/frame.ts';
import { isArtworkRead } from '../../render/job.ts';
import type { Grid } from '../../repeat/grid.ts';
import { type KeptThing, keyOf, type SightMemory } from './memory.ts';
import type { SightOrder } from './order.ts';
import type { Pyramid } from './pyramid.ts';

interface KeptField extends KeptThing {
  readonly key: string;
  readonly field: ArtworkField;
}

type Wish = Pick<SightOrder, 'artwork' | 'ground' | 'steps'>;

/**
 * The artwork as effects read it, of the tile itself and never of what a look draws of it: looks of every density and
 * part share one, and so what was prepared from it.
 */
export class ArtworkFields {
  readonly #memory: SightMemory;
  /** The one that was wanted last of each artwork. */
  readonly #kept = new WeakMap<Pyramid, KeptField>();

  constructor(memory: SightMemory) {
    this.#memory = memory;
  }

  /** None where no step reads it. */
  of({ artwork, ground, steps }: Wish, { repeat, box }: Grid): ArtworkField | undefined {
    if (!isArtworkRead(steps)) return undefined;
    if (!artwork) return artworkField(plainFrame(1, 1, ground), repeat.layout, box);
    const { pyramid } = artwork;
    const key = keyOf([repeat.layout, box]);
    const kept = this.#kept.get(pyramid);
    if (kept?.key === key) {
      this.#memory.use(kept);
      return kept.field;
    }
    const field = artworkField(pyramid.tile, repeat.layout, box);
    this.#keep(pyramid, { key, field, bytes: artworkBytes(box) });
    return field;
  }

  #keep(pyramid: Pyramid, one: Pick<KeptField, 'key' | 'field' | 'bytes'>): void {
    const before = this.#kept.get(pyramid);
    if (before) this.#memory.forget(before);
    this.#kept.delete(pyramid);
    if (!this.#memory.hasRoomFor(one.bytes)) return;
    const kept: KeptField = { ...one, isUsed: false, drop: () => this.#drop(pyramid, kept) };
    this.#kept.set(pyramid, kept);
    this.#memory.use(kept);
  }

  #drop(pyramid: Pyramid, kept: KeptField): void {
    if (this.#kept.get(pyramid) === kept) this.#kept.delete(pyramid);
  }
}
