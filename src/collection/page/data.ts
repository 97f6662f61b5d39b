/** What the page knows of a swatch. */
export interface PageSwatch {
  readonly name: string;
  readonly address: string;
  readonly labels: Readonly<Record<string, string>>;
  /** The repeat that its picture stands on; none where it is empty. */
  readonly cloth?: Cloth;
  /** Which of the originals it was made from, where the page has it. */
  readonly original?: number;
  /** Why it is empty. */
  readonly reason?: string;
  /** Of the tile, in words. */
  readonly facts: string;
  /** Pixels and density of the render. */
  readonly render?: string;
  readonly settings: readonly StepWords[];
  /** What the seam check said, in short and in words. */
  readonly seams?: { readonly grade: 'closes' | 'look' | 'open'; readonly summary: string };
  readonly notes: readonly string[];
}

/** The artwork of a tile without texture: it stands as its renders do. */
export interface PageOriginal {
  readonly cloth?: Cloth;
  /** Why it is not shown. */
  readonly reason?: string;
}

export interface StepWords {
  readonly title: string;
  readonly rows: readonly (readonly [string, string])[];
}

/** How a picture repeats. */
export interface Cloth {
  /** As the house writes it, e.g. `drop:1/2`. */
  readonly layout: string;
  /** Of one picture. */
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface PageData {
  readonly summary: string;
  /** Favourites are kept under this key. */
  readonly key: string;
  /** The collection file's name, where it is known. */
  readonly file?: string;
  /** Axes on which swatches differ. */
  readonly axes: readonly string[];
  /** How much room the pictures have and take, in words. */
  readonly room: string;
  readonly originals: readonly PageOriginal[];
  readonly swatches: readonly PageSwatch[];
}
