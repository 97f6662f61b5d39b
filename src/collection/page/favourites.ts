/** The part of `Storage` that favourites need. */
export type Drawer = Pick<Storage, 'getItem' | 'setItem'>;

/** Favourites by name, kept in the browser where it lets them be kept. */
export class Favourites {
  readonly #key: string;
  readonly #names = new Set<string>();
  readonly #hearers = new Set<() => void>();
  #isKept = false;

  /** @param open Gives the browser's storage; may throw where that is denied. */
  constructor(key: string, open: () => Drawer = () => localStorage) {
    this.#key = key;
    this.#open = open;
    try {
      const names: unknown = JSON.parse(open().getItem(key) ?? '[]');
      if (Array.isArray(names)) for (const name of names) if (typeof name === 'string') this.#names.add(name);
    } catch {
      // Denied, or not ours: they begin empty, and the next choice tells whether they can be kept.
    }
    this.#keep();
  }

  readonly #open: () => Drawer;

  /** False where the browser keeps nothing for this page: they last until it is closed. */
  get isKept(): boolean {
    return this.#isKept;
  }

  has(name: string): boolean {
    return this.#names.has(name);
  }

  toggle(name: string): void {
    if (!this.#names.delete(name)) this.#names.add(name);
    this.#changed();
  }

  clear(): void {
    this.#names.clear();
    this.#changed();
  }

  onChange(hear: () => void): void {
    this.#hearers.add(hear);
  }

  #changed(): void {
    this.#keep();
    for (const hear of this.#hearers) hear();
  }

  #keep(): void {
    try {
      this.#open().setItem(this.#key, JSON.stringify([...this.#names]));
      this.#isKept = true;
    } catch {
      this.#isKept = false;
    }
  }
}
