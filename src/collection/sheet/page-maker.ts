import { Fault } from '../../fault.ts';
import { sha256 } from '../disk/hash.ts';
import { differingAxes } from './differing.ts';
import { clothOf, LEAST_PER_PICTURE, PictureRoom } from './embed.ts';
import { pageFiles } from './page-files.ts';
import { pageSwatch } from './page-swatch.ts';
import { PageWriter } from './page-writer.ts';
import type { SmallOrReason } from './sheet-stack.ts';
import type { Book, Original, Shown, Swatch } from './swatch.ts';

/** A page that was written. */
export interface PageFacts {
  /** Of the whole file. */
  readonly bytes: number;
  /** Of the pictures in it. */
  readonly pictureBytes: number;
  /** What they might have taken. */
  readonly pictureRoom: number;
}

/** Makes the page to choose from, swatch by swatch. */
export class PageMaker {
  readonly #book: Book;
  readonly #room: PictureRoom;
  readonly #pictureRoom: number;
  readonly #writer: PageWriter;
  readonly #originals = new Map<string, number>();

  private constructor(book: Book, pictureRoom: number, writer: PageWriter) {
    this.#book = book;
    this.#pictureRoom = pictureRoom;
    this.#room = new PictureRoom(pictureRoom, countPictures(book));
    this.#writer = writer;
  }

  static async begin(path: string, book: Book, pictureRoom: number): Promise<PageMaker> {
    const writer = await PageWriter.begin(path, book.summary, await pageFiles());
    return new PageMaker(book, pictureRoom, writer);
  }

  /** Pixels per mm that a picture is wanted at; 0 for artwork that is in the page already. */
  densityFor({ original }: Swatch, picture: Shown): number {
    const isKnown = picture === original && this.#originals.has(original.key);
    return isKnown ? 0 : this.#room.densityFor(picture);
  }

  async add(swatch: Swatch, shown: SmallOrReason, original?: SmallOrReason): Promise<void> {
    const number = original === undefined ? undefined : await this.#addOriginal(swatch.original!, original);
    if (typeof shown === 'string') {
      if (swatch.made) this.#room.pass();
      await this.#writer.add(pageSwatch(swatch, number, shown));
    } else {
      await this.#writer.add(pageSwatch(swatch, number), await this.#room.take(shown, swatch.made!));
    }
  }

  /** Each artwork is in the page once. @returns Its number. */
  async #addOriginal(original: Original, shown: SmallOrReason): Promise<number> {
    const known = this.#originals.get(original.key);
    if (known !== undefined) return known;
    const number = this.#originals.size;
    this.#originals.set(original.key, number);
    if (typeof shown === 'string') {
      this.#room.pass();
      await this.#writer.addOriginal({ reason: shown });
    } else {
      await this.#writer.addOriginal({ cloth: clothOf(original) }, await this.#room.take(shown, original));
    }
    return number;
  }

  async end(): Promise<PageFacts> {
    const { summary, folder, file, swatches } = this.#book;
    const { used } = this.#room;
    const bytes = await this.#writer.end({
      summary,
      key: `tenter ${sha256(`${folder}\n${summary}`).slice(0, 16)}`,
      file,
      axes: differingAxes(swatches),
      room: `The pictures in this page take ${megabytes(used)} of the ${megabytes(this.#pictureRoom)} that they may; the renders themselves are finer.`,
    });
    return { bytes, pictureBytes: used, pictureRoom: this.#pictureRoom };
  }

  close(): Promise<void> {
    return this.#writer.close();
  }
}

/** @throws Fault (usage) where each picture would get too little to be worth showing. */
export function refuseNarrowRoom(book: Book, pictureRoom: number): void {
  const least = countPictures(book) * LEAST_PER_PICTURE;
  if (pictureRoom >= least) return;
  throw new Fault({
    kind: 'usage',
    expected: `at least ${megabytes(least)} for ${countPictures(book)} pictures`,
    subject: '--page-size',
    received: megabytes(pictureRoom),
    remedy: 'Give more, choose fewer with --only or --shard, or leave the page out with --no-page.',
  });
}

function countPictures({ swatches }: Book): number {
  const originals = new Set(swatches.flatMap(({ original }) => original?.key ?? []));
  return originals.size + swatches.filter(({ made }) => made).length;
}

function megabytes(bytes: number): string {
  const value = bytes / 1e6;
  return `${value < 10 ? Number(value.toPrecision(2)) : Math.round(value)} MB`;
}
