import { stampOf } from '../../picture/index.ts';
import { type FilePicture, type PictureFiles, readFilePicture } from '../parameter-pictures.ts';
import type { KeptThing, SightMemory } from './memory.ts';

interface Entry {
  readonly stamp: string;
  readonly picture: Promise<FilePicture>;
  kept?: KeptThing;
}

/** The pictures that parameters name, kept from look to look; one whose file was touched is read again. */
export class KeptPictureFiles implements PictureFiles {
  readonly #memory: SightMemory;
  readonly #onGone: (sha256: string) => void;
  readonly #entries = new Map<string, Entry>();
  #wanted: ReadonlySet<string> = new Set();

  /** @param onGone Told of a picture that is kept no longer: what holds its samples would keep them in memory. */
  constructor(memory: SightMemory, onGone: (sha256: string) => void) {
    this.#memory = memory;
    this.#onGone = onGone;
  }

  /** The files of the newest look stay whatever room they take: the next one most likely wants them as well. */
  want(paths: readonly string[]): void {
    this.#wanted = new Set(paths);
  }

  async read(path: string, onBytes: (bytes: number) => void): Promise<FilePicture> {
    const stamp = await stampOf(path);
    const known = this.#entries.get(path);
    if (known?.stamp !== stamp) return this.#open(path, stamp, onBytes);
    if (known.kept) this.#memory.use(known.kept);
    return known.picture;
  }

  #open(path: string, stamp: string, onBytes: (bytes: number) => void): Promise<FilePicture> {
    const picture = readFilePicture(path, onBytes);
    const entry: Entry = { stamp, picture };
    this.#replace(path, entry);
    picture.then(
      ({ samples }) => this.#keep(path, entry, samples.byteLength),
      () => this.#remove(path, entry),
    );
    return picture;
  }

  #replace(path: string, entry: Entry): void {
    const before = this.#entries.get(path);
    if (before) this.#remove(path, before);
    this.#entries.set(path, entry);
  }

  #keep(path: string, entry: Entry, bytes: number): void {
    if (this.#entries.get(path) !== entry) return;
    const wanted = () => this.#wanted.has(path);
    entry.kept = {
      bytes,
      get isUsed() {
        return wanted();
      },
      drop: () => this.#remove(path, entry),
    };
    this.#memory.use(entry.kept);
  }

  #remove(path: string, entry: Entry): void {
    if (this.#entries.get(path) === entry) this.#entries.delete(path);
    if (entry.kept) this.#memory.forget(entry.kept);
    entry.picture.then(
      ({ sha256 }) => this.#onGone(sha256),
      () => {},
    );
  }
}
