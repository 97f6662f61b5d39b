import { type Placing, place, type Shape } from './geometry.ts';

/** A printing ink: one screen of the mill. */
export interface Ink {
  readonly name: string;
  /** `#rrggbb`, sRGB. */
  readonly hex: string;
}

/** A piece of cut paper in one ink. */
export interface Piece {
  readonly ink: Ink;
  /** mm */
  readonly shape: Shape;
}

/** Lays pieces down; every piece appears at every copy of the layout. */
export interface Pen {
  /**
   * Lays the pieces one over the other as one motif. A later motif covers an earlier one,
   * and where copies of one motif overlap, each copy is whole.
   */
  lay(...pieces: readonly Piece[]): void;
}

/** One design of the collection, drawn in mm. */
export interface Artwork {
  /** Short, for file names. */
  readonly name: string;
  readonly title: string;
  /** As `parseLayout` reads it, e.g. `drop:1/2`. */
  readonly layout: string;
  /** Of one tile, mm. */
  readonly width: number;
  /** Of one tile, mm. */
  readonly height: number;
  /** `#rrggbb` of the unprinted or blotched ground. */
  readonly ground: string;
  /** The motif inks, without the ground. */
  readonly inks: readonly Ink[];
  draw(pen: Pen): void;
}

/** A piece of paper in an ink. */
export function piece(ink: Ink, shape: Shape): Piece {
  return { ink, shape };
}

/** A motif of several pieces set down as one. */
export function placeAll(pieces: readonly Piece[], placing: Placing): Piece[] {
  return pieces.map(({ ink, shape }) => ({ ink, shape: place(shape, placing) }));
}
