/** What the page knows of a swatch. */
export interface PageSwatch {
  readonly name: string;
  readonly address: string;
  readonly labels: Readonly<Record<string, string>>;
  /** The repeat that its picture stands on; none where it is empty. */
  readonly cloth?: Cloth;
  /** Why it is empty. */
  readonly reason?: string;
  /** Of the tile, in words. */
  readonly facts: string;
  /** Pixels and density of the render. */
  readonly render?: string;
  readonly settings: readonly StepWords[];
  /** What the seam check said, and whether it closes. */
  readonly seams?: { readonly closes: boolean; readonly summary: string };
  readonly notes: readonly string[];
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
  readonly swatches: readonly PageSwatch[];
}
