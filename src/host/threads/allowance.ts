/**
 * How far the memory of the process may grow while renders share it. Each brings what it may touch for
 * the first time, and a share that its effects may take; none takes away what another was allowed.
 */
export class Allowance {
  readonly #share: number;
  readonly #fixed: number;
  readonly #expected = new Map<number, number>();
  #allowed = Number.POSITIVE_INFINITY;

  /**
   * @param share Bytes that the effects of one render may take.
   * @param fixed Bytes that the threads may add by themselves.
   */
  constructor(share: number, fixed: number) {
    this.#share = share;
    this.#fixed = fixed;
  }

  /** Bytes that the process may have. */
  get bytes(): number {
    return this.#allowed;
  }

  /** A render is about to touch `bytes` of pictures for the first time; `now` is what the process has. */
  expect(render: number, bytes: number, now: number): void {
    const isNew = !this.#expected.has(render);
    const isAlone = this.#expected.size === (isNew ? 0 : 1);
    this.#expected.set(render, isAlone ? bytes : bytes + (this.#expected.get(render) ?? 0));
    const grown = this.#allowed + bytes + (isNew ? this.#share : 0);
    // What one takes too much, the beginning of another must not forgive.
    this.#allowed = isAlone ? this.#mostFrom(now) : Math.min(grown, this.#mostFrom(now));
  }

  leave(render: number, now: number): void {
    if (!this.#expected.delete(render)) return;
    this.#allowed = Math.min(this.#allowed, this.#mostFrom(now));
  }

  #mostFrom(now: number): number {
    let most = now + this.#fixed;
    for (const bytes of this.#expected.values()) most += bytes + this.#share;
    return most;
  }
}
