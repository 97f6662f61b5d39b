import { randomUUID } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { isRunning, MACHINE, ownCard, type ProcessCard } from '../../picture/process-mark.ts';
import { isOwnerId, isUnderWay } from './forms.ts';
import { clearInside, makeFolderInside, namesInside, removeInside, writeInside } from './inside.ts';
import { STATE_FOLDER } from './output.ts';
import { readRecord } from './record.ts';

/** How often an owner says that it lives. */
const BEAT_MS = 5_000;
/** An owner that was not heard of for so long is gone: several beats, and a slow network disk. */
export const GONE_AFTER_MS = 60_000;

/** A process that works on an output folder. */
interface OwnerCard extends ProcessCard {
  readonly id: string;
  /** Tells machines, and processes that cannot see each other, apart. */
  readonly machine: string;
}

const OWNERS = `${STATE_FOLDER}/owners`;
const WORK = `${STATE_FOLDER}/work`;

/**
 * This process as an owner of claims in an output folder. While it lives it writes to its card; a card
 * that is silent for a minute, or whose process is known to be gone, is nobody's.
 *
 * The age of a card is its time against that of our own, both given by the disk they lie on, so clocks
 * of different hosts need not agree.
 */
export class Owner {
  readonly id = randomUUID();
  /** Files under way, from the output folder; on the same disk as the pictures, so that renaming puts them in place whole. */
  readonly workFolder = `${WORK}/${this.id}`;
  /** A file that holds nothing but the id. */
  readonly nameTag = `${this.workFolder}/owner`;
  readonly #folder: string;
  readonly #card = `${OWNERS}/${this.id}.json`;
  #beat?: NodeJS.Timeout;
  /** A card that is being written while it is taken away would stay. */
  #writing: Promise<void> = Promise.resolve();
  #isOpen = false;

  constructor(outputFolder: string) {
    this.#folder = outputFolder;
  }

  async open(): Promise<void> {
    await makeFolderInside(this.#folder, OWNERS);
    this.#isOpen = true;
    // The card first: a work folder without one is that of an owner who is gone, and anybody's to clear.
    await this.#write();
    await makeFolderInside(this.#folder, this.workFolder);
    await writeInside(this.#folder, this.nameTag, this.id);
    this.#beat = setInterval(() => {
      this.#writing = this.#write().catch(() => {});
    }, BEAT_MS).unref();
  }

  /** Takes the card and whatever is left in the work folder away. */
  async close(): Promise<void> {
    clearInterval(this.#beat);
    await this.#writing;
    if (this.#isOpen) await this.#clear(this.id);
  }

  /** True for an owner that will do no more. */
  async isGone(id: string): Promise<boolean> {
    if (id === this.id) return false;
    // A name that none of us would give says nothing of anybody who lives.
    if (!isOwnerId(id)) return true;
    const path = join(this.#folder, OWNERS, `${id}.json`);
    const card = await readCard(path);
    if (!card) return !(await this.#isYoung(path));
    if (card.machine === MACHINE) return !isRunning(card);
    return !(await this.#isYoung(path));
  }

  /** Removes cards and unfinished files of owners that are gone. @returns How many were cleared. */
  async clearGone(): Promise<number> {
    const cards = (await namesInside(this.#folder, OWNERS)).map((name) => name.replace(/\.json$/, ''));
    const ids = new Set([...cards, ...(await namesInside(this.#folder, WORK))].filter(isOwnerId));
    let cleared = 0;
    for (const id of ids) {
      if (!(await this.isGone(id))) continue;
      await this.#clear(id);
      cleared++;
    }
    return cleared;
  }

  async #clear(id: string): Promise<void> {
    await clearInside(this.#folder, `${WORK}/${id}`, isUnderWay);
    await removeInside(this.#folder, `${OWNERS}/${id}.json`);
  }

  async #write(): Promise<void> {
    const card: OwnerCard = { id: this.id, machine: MACHINE, ...ownCard() };
    await writeInside(this.#folder, this.#card, JSON.stringify(card));
  }

  async #isYoung(path: string): Promise<boolean> {
    const card = await stat(path).catch(() => undefined);
    if (!card) return false;
    const own = await stat(join(this.#folder, this.#card)).catch(() => undefined);
    return (own?.mtimeMs ?? Date.now()) - card.mtimeMs < GONE_AFTER_MS;
  }
}

/** A card that names no process would be that of one who lives for ever. */
const card = z.object({
  id: z.string(),
  machine: z.string(),
  pid: z.number().int().positive(),
  began: z.string().optional(),
});
const MOST_CARD_BYTES = 10e3;

async function readCard(path: string): Promise<OwnerCard | undefined> {
  return card.safeParse(await readRecord(path, MOST_CARD_BYTES)).data;
}
