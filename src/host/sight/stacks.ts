import { sharedSamples } from '../../colour/frame.ts';
import type { PassOrder, SoftPicture } from '../../render/orders.ts';
import type { KeptThing, SightMemory } from './memory.ts';

type Pixels = PassOrder['source'];

interface KeptStack extends KeptThing {
  readonly frame: PassOrder['frame'];
  readonly stack: readonly SoftPicture[];
}

/** Keeps the softer and softer levels of drawn artwork that paint runs from: they change with the artwork alone. */
export class Stacks {
  readonly #memory: SightMemory;
  readonly #kept = new WeakMap<Pixels, KeptStack>();
  /** What renders begin from, and the drawn picture that it is or is a copy of. */
  readonly #drawn = new WeakMap<Pixels, Pixels>();
  /** How many were made. */
  made = 0;

  constructor(memory: SightMemory) {
    this.#memory = memory;
  }

  /** Says that a render begins from a drawn picture, or from a copy of it. */
  begins(source: Pixels, drawn: Pixels): void {
    this.#drawn.set(source, drawn);
  }

  /**
   * Runs a pass; where it begins from drawn artwork, with the levels as they were made for an earlier one.
   *
   * @param isFirst Whether nothing was laid before it.
   */
  async serve<T>(pass: PassOrder, isFirst: boolean, run: (pass: PassOrder) => Promise<T>): Promise<T> {
    const pixels = this.#drawn.get(pass.source);
    if (!isFirst || !pass.stack || !pixels) return run(pass);
    const kept = this.#kept.get(pixels);
    if (kept?.frame === pass.frame) {
      this.#memory.use(kept);
      return run({ ...pass, stack: kept.stack, isSoftened: true });
    }
    // A later pass of the same render fills its levels anew: what is kept has memory of its own.
    const stack = pass.stack.map(({ grid, samples }) => ({
      grid,
      samples: sharedSamples(samples.length, 16),
    }));
    this.made++;
    const ran = await run({ ...pass, stack });
    const bytes = stack.reduce((sum, { samples }) => sum + samples.byteLength, 0);
    const drop = () => void this.#kept.delete(pixels);
    const made: KeptStack = { frame: pass.frame, stack, bytes, isUsed: false, drop };
    this.#kept.set(pixels, made);
    this.#memory.use(made);
    return ran;
  }
}
