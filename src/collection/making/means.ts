import { Fault } from '../../fault.ts';
import type { Shelf } from '../../host/plugins/shelf.ts';
import { Crew } from '../../host/threads/crew.ts';
import { Hands } from '../../host/threads/hands.ts';
import { type Limits, RENDER_LIMITS } from '../../host/threads/limits.ts';
import type { Item } from '../plan/item.ts';
import { Blocks } from './blocks.ts';
import { LentBlocks } from './lent-blocks.ts';
import { Memory } from './memory.ts';
import { staffBytes, staffFor, tileBytes, workBytes } from './need.ts';
import { PictureStore, type PictureTicket, pictureBytes } from './picture-store.ts';
import type { Saved } from './run-settings.ts';
import { TextureStore } from './texture-store.ts';
import { TileStore, type TileTicket } from './tile-store.ts';

/** What an item was let in with. */
export interface Admitted {
  readonly crew: Crew;
  readonly hands: Hands;
  readonly tile: TileTicket;
  readonly pictures: PictureTicket;
  readonly textures: TextureStore;
  readonly lent: LentBlocks;
  /** Gives everything back; call it once. @param isWell False where the render failed. */
  end(isWell: boolean): void;
}

/** The threads, memory and kept work of a run. */
export interface Means {
  readonly memory: Memory;
  /** How many items may be under way. */
  readonly places: number;
  /** Told of every item that will be made, and of each that is made or given up. */
  expect(item: Item): void;
  release(item: Item): void;
  /** True for an item that would have to wait for what another is just painting. */
  isPromised(item: Item): boolean;
  /**
   * Lets an item in where there is room for it.
   *
   * @param busy    Items under way.
   * @param waiting Items that wait, this one included.
   * @param alone   With one thread and nobody beside it.
   */
  admit(item: Item, busy: number, waiting: number, alone?: boolean): Admitted | undefined;
  /** The Fault of an item that does not fit in by itself. */
  tooLarge(item: Item): Fault;
  saved(): Saved;
  close(): Promise<void>;
}

export interface MeansSettings {
  readonly shelf: Shelf;
  /** Threads that paint. */
  readonly workers: number;
  /** Bytes. */
  readonly budget: number;
  /** Longest time that an effect may go without a sign of progress. */
  readonly seconds?: number;
}

/**
 * Opens the means of a run. Side by side, items keep all cores busy while some of them are read, checked or
 * written, which one thread each does; so as many as there are cores are painted at once, each by one
 * thread, and one more is under way to fill the gaps. Where memory lets fewer in, or fewer are left,
 * each is painted by more threads.
 */
export function openMeans({ shelf, workers: asked, budget, seconds }: MeansSettings): Means {
  const staff = staffFor(asked, budget);
  const { workers, places } = staff;
  const memory = new Memory(budget, staffBytes(staff));
  const hands = new Hands(workers);
  const tiles = new TileStore(memory, hands);
  const pictures = new PictureStore(memory);
  const blocks = new Blocks(memory);
  const textures = new TextureStore(memory, blocks);
  const crews = new Crews(limitsFor(budget, seconds));
  const needOf = (item: Item) => workBytes(item, shelf);

  function admit(item: Item, busy: number, waiting: number, alone = false): Admitted | undefined {
    if (busy >= places) return undefined;
    const need = needOf(item);
    // Else its own tile or pictures might be what is given up to make room for it.
    const letGo = [tiles.hold(item), pictures.hold(item)];
    const isTaken = memory.take(need + tiles.bytesFor(item) + pictures.bytesFor(item));
    const tickets = isTaken ? { tile: tiles.reserve(item), pictures: pictures.reserve(item) } : undefined;
    for (const end of letGo) end();
    if (!tickets) return undefined;
    textures.begin(item);
    const lent = new LentBlocks(blocks);
    const fits = 1 + Math.floor(memory.attainable / Math.max(1, need));
    const beside = Math.max(1, Math.min(workers, fits + busy, waiting + busy));
    const crew = crews.take(alone ? 1 : Math.ceil(workers / beside));
    return {
      crew,
      hands,
      ...tickets,
      textures,
      lent,
      end(isWell) {
        tickets.tile.close();
        tickets.pictures.close();
        textures.end(item);
        crews.giveBack(crew);
        memory.giveBack(need);
        // Of a render that failed nobody knows who still holds what.
        if (isWell) lent.giveBack();
      },
    };
  }

  return {
    memory,
    places,
    expect: (item) => textures.expect(item),
    release: (item) => textures.release(item),
    isPromised: (item) => textures.isPromised(item),
    admit,
    tooLarge: (item) => tooLarge(item, memory, needOf(item) + tileBytes(item) + pictureBytes(item)),
    saved: () => ({
      decodes: tiles.counts.asked - tiles.counts.decoded,
      tileChecks: tiles.counts.asked - tiles.counts.checked,
      prepares: textures.counts.prepared,
      paints: textures.counts.painted,
    }),
    close: async () => {
      await Promise.all([crews.close(), hands.close()]);
    },
  };
}

/**
 * A crew measures the growth of the whole process, to which all that is under way contributes: up to the
 * budget, which is kept by letting nothing in beyond it. Only what goes further is an effect's greed.
 */
function limitsFor(budget: number, seconds = RENDER_LIMITS.seconds): Limits {
  return { seconds, megabytes: RENDER_LIMITS.megabytes + budget / 1e6 };
}

/** Crews by their size; a warm one has its effects loaded. */
class Crews {
  readonly #idle: Crew[] = [];
  readonly #all = new Set<Crew>();
  readonly #limits: Limits;

  constructor(limits: Limits) {
    this.#limits = limits;
  }

  take(size: number): Crew {
    const at = this.#idle.findIndex((crew) => crew.size === size);
    if (at >= 0) return this.#idle.splice(at, 1)[0];
    // Idle crews of other sizes hold memory that nobody counts.
    for (const crew of this.#idle.splice(0)) this.#dismiss(crew);
    const crew = new Crew(size, this.#limits);
    this.#all.add(crew);
    return crew;
  }

  giveBack(crew: Crew): void {
    this.#idle.push(crew);
  }

  async close(): Promise<void> {
    await Promise.all([...this.#all].map((crew) => crew.close()));
    this.#all.clear();
    this.#idle.length = 0;
  }

  #dismiss(crew: Crew): void {
    this.#all.delete(crew);
    void crew.close();
  }
}

function tooLarge({ name }: Item, memory: Memory, need: number): Fault {
  const megabytes = (bytes: number) => `${Math.ceil(bytes / 1e6)} MB`;
  const least = memory.budget - memory.attainable + need;
  return new Fault({
    kind: 'usage',
    expected: `a render that fits into ${megabytes(memory.budget)} of memory`,
    subject: name,
    received: `one that needs ${megabytes(least)}`,
    remedy: `Allow it with --memory ${megabytes(least * 1.05).replace(' ', '')}, or render it at a lower density.`,
  });
}
