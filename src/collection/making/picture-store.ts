import { readPictureValue } from '../../effect/picture-value.ts';
import { type FilePicture, type PictureFiles, pictureValues } from '../../host/parameter-pictures.ts';
import { deepBytes, readDeepPicture } from '../../picture/index.ts';
import { type PlannedFile, whileUnchanged } from '../disk/steady.ts';
import type { PictureInputs } from '../plan/identity.ts';
import type { Item } from '../plan/item.ts';
import type { Kept, Memory } from './memory.ts';

/** A file as the plan knows it. */
interface Wanted extends PlannedFile {
  /** Of its samples. */
  readonly bytes: number;
}

interface Entry extends Kept {
  users: number;
  opened?: Promise<FilePicture>;
}

/** A claim on the pictures of an item's parameters: they stay until it is closed. */
export interface PictureTicket {
  /** Of the item alone. It throws Fault (input) for a file that is not as it was planned. */
  readonly files: PictureFiles;
  close(): void;
}

/** Decodes every picture that parameters name once, and keeps it while there is room. */
export class PictureStore {
  readonly #memory: Memory;
  readonly #entries = new Map<string, Entry>();

  constructor(memory: Memory) {
    this.#memory = memory;
  }

  /** Bytes that opening an item's pictures will take: none for those at hand. */
  bytesFor(item: Item): number {
    return sumOf(wantedBy(item).filter(({ path }) => !this.#entries.has(path)));
  }

  /** Keeps the pictures of an item from being given up, where they are at hand. @returns Ends that. */
  hold(item: Item): () => void {
    const held = wantedBy(item).flatMap(({ path }) => this.#entries.get(path) ?? []);
    for (const entry of held) entry.users++;
    return () => {
      for (const entry of held) entry.users--;
    };
  }

  /** Reserves the pictures of an item, whose memory must have been taken (see `bytesFor`). */
  reserve(item: Item): PictureTicket {
    const wanted = new Map(wantedBy(item).map((file) => [file.path, file]));
    const entries = [...wanted.values()].map((file) => this.#entries.get(file.path) ?? this.#add(file));
    for (const entry of entries) {
      entry.users++;
      this.#memory.keep(entry);
    }
    return {
      files: { read: (path) => this.#open(wanted.get(path)!) },
      close: () => {
        for (const entry of entries) entry.users--;
      },
    };
  }

  #add({ path, bytes }: Wanted): Entry {
    const entry: Entry = {
      users: 0,
      bytes,
      get isUsed() {
        return this.users > 0;
      },
      drop: () => this.#entries.delete(path),
    };
    this.#entries.set(path, entry);
    return entry;
  }

  #open(file: Wanted): Promise<FilePicture> {
    const entry = this.#entries.get(file.path)!;
    if (entry.opened) return entry.opened;
    const { path, sha256 } = file;
    const opened = whileUnchanged([file], async () => ({ ...(await readDeepPicture(path)), sha256 }));
    entry.opened = opened;
    // One that could not be read is asked for again by the next item.
    opened.catch(() => {
      entry.opened = undefined;
    });
    return opened;
  }
}

/** Bytes of all pictures that the parameters of an item name. */
export function pictureBytes(item: Item): number {
  return sumOf(wantedBy(item));
}

function sumOf(files: readonly Wanted[]): number {
  return files.reduce((sum, { bytes }) => sum + bytes, 0);
}

/** Each file once, however many steps name it. */
function wantedBy({ steps, inputs }: Pick<Item, 'steps' | 'inputs'>): Wanted[] {
  const files = steps.flatMap((step, index) =>
    pictureValues(step).map(([name, value]): [string, Wanted] => {
      const { path } = readPictureValue(value);
      const { sha256, widthPx, heightPx } = inputs.steps[index].parameters[name] as PictureInputs;
      return [path, { path, sha256, bytes: deepBytes({ width: widthPx, height: heightPx }) }];
    }),
  );
  return [...new Map(files).values()];
}
