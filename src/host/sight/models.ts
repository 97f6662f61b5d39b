import type { Prepared, PrepareOrder } from '../../render/orders.ts';
import { arrayBytes } from '../../render/share.ts';
import type { Crew } from '../threads/crew.ts';
import type { CrewTask } from '../threads/crew-task.ts';
import { type KeptThing, keyOf, type SightMemory } from './memory.ts';
import { modelKey } from './model-key.ts';

/** How long what nobody waits for any more goes on, ms: the next look may want it. */
const LINGER_MS = 300;
/** Bytes of a model beside its arrays of numbers: a guess. */
const BESIDE = 64 * 1024;

interface Model {
  readonly prepared: Promise<Prepared>;
  readonly task: CrewTask;
  /** SHA-256 of the pictures that it may hold the samples of. */
  readonly pictures: readonly string[];
  /** The looks that wait for it. */
  readonly looks: Set<object>;
  isDone: boolean;
  kept?: KeptThing;
}

/**
 * What effects prepared, for all looks. Each is a task of its own, so that a look that is given up does not take away
 * what the next one wants as well: while one step's parameter is dragged, the dear step below it goes on.
 */
export class Models {
  readonly #crew: Crew;
  readonly #memory: SightMemory;
  readonly #models = new Map<string, Model>();
  #lingering?: NodeJS.Timeout;
  /** How many were asked of effects. */
  made = 0;

  constructor(crew: Crew, memory: SightMemory) {
    this.#crew = crew;
    this.#memory = memory;
  }

  /** What these orders come to. What no look wants by now is given up. */
  prepare(orders: readonly PrepareOrder[], look: object): Promise<Prepared[]> {
    const wanted = orders.map((order) => this.#want(order, look));
    this.#giveUpIdle();
    return Promise.all(wanted);
  }

  /** A look is over, or given up. */
  release(look: object): void {
    let hasIdle = false;
    for (const { looks, isDone } of this.#models.values()) {
      looks.delete(look);
      hasIdle ||= !isDone && looks.size === 0;
    }
    if (hasIdle) this.#lingering ??= setTimeout(() => this.#giveUpIdle(), LINGER_MS).unref();
  }

  /** A picture is kept no longer, and neither are the models that may hold it. */
  forget(sha256: string): void {
    for (const [key, { pictures, kept }] of this.#models) {
      if (!kept || !pictures.includes(sha256)) continue;
      this.#memory.forget(kept);
      this.#models.delete(key);
    }
  }

  #want(order: PrepareOrder, look: object): Promise<Prepared> {
    const key = keyOf(modelKey(order));
    const model = this.#models.get(key) ?? this.#make(key, order);
    if (!model.isDone) model.looks.add(look);
    if (model.kept) this.#memory.use(model.kept);
    return model.prepared;
  }

  #make(key: string, order: PrepareOrder): Model {
    this.made++;
    const task = this.#crew.begin();
    const prepared = task.prepare([order], () => {}).then(([made]) => made);
    const pictures = Object.values(order.effect.pictures ?? {}).map(({ sha256 }) => sha256);
    const model: Model = { prepared, task, pictures, looks: new Set(), isDone: false };
    this.#models.set(key, model);
    const remove = () => {
      if (this.#models.get(key) === model) this.#models.delete(key);
    };
    prepared
      .then((made) => {
        model.isDone = true;
        const bytes = BESIDE + arrayBytes(made.model) - (made.lentBytes ?? 0);
        if (this.#models.get(key) !== model || !this.#memory.hasRoomFor(bytes)) return remove();
        model.kept = { bytes, isUsed: false, drop: remove };
        this.#memory.use(model.kept);
      }, remove)
      .finally(() => task.end());
    return model;
  }

  #giveUpIdle(): void {
    clearTimeout(this.#lingering);
    this.#lingering = undefined;
    for (const [key, { looks, isDone, task }] of this.#models) {
      if (isDone || looks.size > 0) continue;
      this.#models.delete(key);
      task.giveUp();
    }
  }
}
