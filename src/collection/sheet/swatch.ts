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
  /** Why it is empty. */
  readonly reason?: string;
}

/** A picture that is there. */
export interface Made {
  /** Absolute. */
  readonly path: string;
  readonly picture: Sidecar['picture'];
  readonly seams: Verdict;
  readonly notes: readonly string[];
}

/** A collection as sheets and page show it. */
export interface Book {
  readonly summary: string;
  /** The output folder, absolute. */
  readonly folder: string;
  /** The collection file's name, where it is known. */
  readonly file?: string;
  /** In the order in which they are shown: those of one tile together. */
  readonly swatches: readonly Swatch[];
}

/** What a swatch's tile is called; swatches of no known tile stand together. */
export function tileOf({ labels }: Pick<Swatch, 'labels'>): string {
  return labels.tile ?? '';
}
