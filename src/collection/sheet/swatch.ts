import type { Sidecar, Verdict } from '../disk/sidecar.ts';
import type { Labels } from '../plan/combine.ts';
import type { Inputs } from '../plan/identity.ts';

/** One variant as it is shown: what was rendered, or why there is nothing to show. */
export interface Swatch {
  /** Path of its picture in the output folder; what a list calls it. */
  readonly name: string;
  readonly address: string;
  /** `tile`, `recipe` and the label of each axis; empty where only a report's bare name is known. */
  readonly labels: Labels;
  readonly inputs?: Inputs;
  /** Of what was rendered. */
  readonly made?: Made;
  /** What it was rendered from, where that is known. */
  readonly original?: Original;
  /** Why it is empty. */
  readonly reason?: string;
}

/** A picture file of one tile, and the repeat on which it stands. */
export interface Shown {
  /** Absolute. */
  readonly path: string;
  readonly picture: Pick<Sidecar['picture'], 'widthPx' | 'heightPx' | 'layout' | 'widthMm' | 'heightMm'>;
}

/** A render that is there. */
export interface Made extends Shown {
  readonly picture: Sidecar['picture'];
  readonly seams: Verdict;
  readonly notes: readonly string[];
}

/** The artwork as it is without texture, laid as the renders of its tile are. */
export interface Original extends Shown {
  /** The same for all renders of one tile on one repeat. */
  readonly key: string;
}

/** A collection as sheets and page show it. */
export interface Book {
  readonly summary: string;
  /** The output folder, absolute. */
  readonly folder: string;
  /** Files that it was made from, besides the artwork of its swatches, where they are known. */
  readonly sources?: readonly string[];
  /** The collection file's name, where it is known. */
  readonly file?: string;
  /** In the order in which they are shown: those of one tile together. */
  readonly swatches: readonly Swatch[];
}

/** What a swatch's tile is called; swatches of no known tile stand together. */
export function tileOf({ labels }: Pick<Swatch, 'labels'>): string {
  return labels.tile ?? '';
}
