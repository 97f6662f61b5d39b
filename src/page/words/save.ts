import type { Laying, Work } from './work.ts';

/** What is saved. `POST api/save` with it, answered by `Saving`; `DELETE api/save/ID` stops it. */
export interface SaveOrder {
  readonly what:
    | 'recipe'
    /** The tile with all that is laid on it. */
    | 'tile'
    /** The texture alone as pictures for laying by hand, with transparency. */
    | 'texture'
    /** Trials into a collection file, made or added to. */
    | 'collection';
  /** The name of the file in the folder of the work: no path. */
  readonly name: string;
  readonly work: Work;
  /** For a collection: which trials. */
  readonly trials?: readonly string[];
  /** Pixels per mm of a picture; the tile's own where absent. */
  readonly density?: number;
  /** Take the nearest pixels that fit the layout. */
  readonly fit?: boolean;
  /** True once the person agreed to replace what is there. */
  readonly overwrite?: boolean;
}

/** A saving under way or ended; told again and again through the news. */
export interface Saving {
  readonly id: string;
  readonly what: SaveOrder['what'];
  /** Of the file, as the person would say it. */
  readonly name: string;
  /** 0..1 */
  readonly done: number;
  readonly state: 'under way' | 'saved' | 'stopped' | 'failed' | 'would replace';
  /** What came of it: the size, the density, the seam verdict; or what went wrong. */
  readonly words: readonly string[];
  /** The command that makes the same bytes, to be copied. */
  readonly command?: string;
}

/** Asks for the command that makes what is on screen. `POST api/command` with it; answered by `{ command }`. */
export interface CommandOrder {
  readonly work: Work;
  readonly laying: Laying;
  readonly density?: number;
}
