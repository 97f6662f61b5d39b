import { totalmem } from 'node:os';

/** Of the machine, or of what a container may use. */
export function defaultBudget(): number {
  const allowed = process.constrainedMemory?.() ?? 0;
  const total = totalmem();
  return Math.floor((allowed > 0 && allowed < total ? allowed : total) / 2);
}

/** Something kept because it may be used again, and given up when room is needed. */
export interface Kept {
  readonly bytes: number;
  /** Not given up while somebody uses it. */
  readonly isUsed: boolean;
  drop(): void;
}

/** Keeps account of memory, so that the sum of what is under way stays within a budget. */
export class Memory {
  readonly budget: number;
  #taken: number;
  #most: number;
  /** In the order of last use. */
  readonly #kept = new Set<Kept>();

  /** @param base Taken whatever is done: the program itself and its threads. */
  constructor(budget: number, base: number) {
    this.budget = budget;
    this.#taken = base;
    this.#most = base;
  }

  get free(): number {
    return this.budget - this.#taken;
  }

  /** The most that was ever accounted for. */
  get most(): number {
    return this.#most;
  }

  /** Free, once everything unused were given up. */
  get attainable(): number {
    let sum = this.free;
    for (const one of this.#kept) if (!one.isUsed) sum += one.bytes;
    return sum;
  }

  /** Takes so many bytes, giving up what is kept where it must. @returns False where there is no room. */
  take(bytes: number): boolean {
    if (bytes > this.attainable) return false;
    for (const one of this.#kept) {
      if (bytes <= this.free) break;
      if (!one.isUsed) this.forget(one);
    }
    this.#taken += bytes;
    this.#most = Math.max(this.#most, this.#taken);
    return true;
  }

  /** Takes so many bytes only where they are free, giving up nothing for them. */
  takeFree(bytes: number): boolean {
    return bytes <= this.free && this.take(bytes);
  }

  giveBack(bytes: number): void {
    this.#taken -= bytes;
  }

  /** What was taken for it stays taken until it is given up. */
  keep(one: Kept): void {
    this.#kept.delete(one);
    this.#kept.add(one);
  }

  forget(one: Kept): void {
    if (!this.#kept.delete(one)) return;
    one.drop();
    this.giveBack(one.bytes);
  }
}
