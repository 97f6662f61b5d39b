/** Something that takes memory and can be let go. */
export interface KeptThing {
  readonly bytes: number;
  /** True while a look is at it: it then stays. */
  readonly isUsed: boolean;
  /** Told once it is let go. */
  drop(): void;
}

/** A budget of memory: what was used longest ago goes first. */
export class SightMemory {
  readonly #most: number;
  /** In the order of their last use. */
  readonly #things = new Set<KeptThing>();
  #bytes = 0;

  /** @param bytes That all things may take together; those in use may take more for a while. */
  constructor(bytes: number) {
    this.#most = bytes;
  }

  get bytes(): number {
    return this.#bytes;
  }

  /** True for what may be kept at all: one thing should not drive out all others. */
  hasRoomFor(bytes: number): boolean {
    return bytes <= this.#most / 2;
  }

  /** Takes a thing in, or says that one was used again. */
  use(thing: KeptThing): void {
    if (this.#things.delete(thing)) this.#bytes -= thing.bytes;
    this.#things.add(thing);
    this.#bytes += thing.bytes;
    this.#tidy();
  }

  /** A thing is gone by itself. */
  forget(thing: KeptThing): void {
    if (this.#things.delete(thing)) this.#bytes -= thing.bytes;
  }

  #tidy(): void {
    for (const thing of this.#things) {
      if (this.#bytes <= this.#most) return;
      if (thing.isUsed) continue;
      this.forget(thing);
      thing.drop();
    }
  }
}

/** Text that is the same for equal data, whatever the order of its keys. */
export function keyOf(value: unknown): string {
  return JSON.stringify(value, (_key, inner) => {
    if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) return inner;
    return Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
  });
}
