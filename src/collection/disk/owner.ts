import { randomUUID } from 'node:crypto';
import { readFileSync, readlinkSync } from 'node:fs';
import { mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { sha256 } from './hash.ts';
import { STATE_FOLDER } from './output.ts';

/** How often an owner says that it lives. */
const BEAT_MS = 5_000;
/** An owner that was not heard of for so long is gone: several beats, and a slow network disk. */
export const GONE_AFTER_MS = 60_000;

/** A process that works on an output folder. */
interface OwnerCard {
  readonly id: string;
  /** Tells machines, and processes that cannot see each other, apart. */
  readonly machine: string;
  readonly pid: number;
  /** When the process began, so that its number given to another is noticed; none where the system does not tell. */
  readonly began?: string;
}

/**
 * This process as an owner of claims in an output folder. While it lives it writes to its card; a card
 * that is silent for a minute, or whose process is known to be gone, is nobody's.
 *
 * The age of a card is its time against that of our own, both given by the disk they lie on, so clocks
 * of different hosts need not agree.
 */
export class Owner {
  readonly id = randomUUID();
  /** Files under way; on the same disk as the pictures, so that renaming puts them in place whole. */
  readonly workFolder: string;
  /** A file that holds nothing but the id. */
  readonly nameTag: string;
  readonly #folder: string;
  readonly #card: string;
  #beat?: NodeJS.Timeout;

  constructor(outputFolder: string) {
    this.#folder = join(outputFolder, STATE_FOLDER, 'owners');
    this.#card = join(this.#folder, `${this.id}.json`);
    this.workFolder = join(outputFolder, STATE_FOLDER, 'work', this.id);
    this.nameTag = join(this.workFolder, 'owner');
  }

  async open(): Promise<void> {
    await mkdir(this.#folder, { recursive: true });
    await mkdir(this.workFolder, { recursive: true });
    await writeFile(this.nameTag, this.id);
    await this.#write();
    this.#beat = setInterval(() => void this.#write().catch(() => {}), BEAT_MS).unref();
  }

  /** Takes the card and whatever is left in the work folder away. */
  async close(): Promise<void> {
    clearInterval(this.#beat);
    await rm(this.workFolder, { recursive: true, force: true });
    await rm(this.#card, { force: true });
  }

  /** True for an owner that will do no more. */
  async isGone(id: string): Promise<boolean> {
    if (id === this.id) return false;
    const path = join(this.#folder, `${id}.json`);
    const card = await readCard(path);
    if (!card) return !(await this.#isYoung(path));
    if (card.machine === MACHINE) return !isSameProcess(card);
    return !(await this.#isYoung(path));
  }

  /** Removes cards and unfinished files of owners that are gone. @returns How many were cleared. */
  async clearGone(): Promise<number> {
    const work = join(this.workFolder, '..');
    const cards = (await readdir(this.#folder)).map((name) => name.replace(/\.json$/, ''));
    const ids = new Set([...cards, ...(await readdir(work))]);
    let cleared = 0;
    for (const id of ids) {
      if (!(await this.isGone(id))) continue;
      await rm(join(work, id), { recursive: true, force: true });
      await rm(join(this.#folder, `${id}.json`), { force: true });
      cleared++;
    }
    return cleared;
  }

  async #write(): Promise<void> {
    const card: OwnerCard = { id: this.id, machine: MACHINE, pid: process.pid, began: beganAt(process.pid) };
    await writeFile(this.#card, JSON.stringify(card));
  }

  async #isYoung(path: string): Promise<boolean> {
    const card = await stat(path).catch(() => undefined);
    if (!card) return false;
    const own = await stat(this.#card).catch(() => undefined);
    return (own?.mtimeMs ?? Date.now()) - card.mtimeMs < GONE_AFTER_MS;
  }
}

/** Two containers of one machine see different processes under one number, so their name space counts as well. */
const MACHINE = sha256(
  [
    hostname(),
    tryTo(() => readFileSync('/proc/sys/kernel/random/boot_id', 'utf8')),
    tryTo(() => readlinkSync('/proc/self/ns/pid')),
  ].join('\n'),
).slice(0, 16);

async function readCard(path: string): Promise<OwnerCard | undefined> {
  try {
    return JSON.parse(await readFile(path, 'utf8'));
  } catch {
    return undefined;
  }
}

function isSameProcess({ pid, began }: OwnerCard): boolean {
  try {
    process.kill(pid, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return false;
  }
  return began === undefined || beganAt(pid) === began;
}

/** Field 22 of /proc/PID/stat, ticks since the machine began (Linux, proc(5)). A dead process that nobody has buried counts as gone. */
function beganAt(pid: number): string | undefined {
  const text = tryTo(() => readFileSync(`/proc/${pid}/stat`, 'utf8'));
  if (!text) return undefined;
  const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
  return fields[0] === 'Z' ? 'dead' : fields[19];
}

function tryTo(read: () => string): string | undefined {
  try {
    return read();
  } catch {
    return undefined;
  }
}
