import { type Ink, type Piece, piece } from './artwork.ts';
import { curveThrough } from './curve.ts';
import { edged, leafProfile, ribbon } from './cut.ts';
import { type Placing, path, place, type Shape } from './geometry.ts';

const SCALE: Shape = edged(path('0 -17, -7.5 -6, -8.2 5, 0 11'), path('0 11, 8.2 5, 7.5 -6, 0 -17'));
/** A little larger, in the ground's ink, it keeps each bract apart from those behind it. */
const GAP: Shape = edged(path('0 -20, -9 -7, -9.6 6, 0 12'), path('0 12, 9.6 6, 9 -7, 0 -20'));
const MARK: Shape = ribbon(curveThrough(path('0 -12, 0 -4, 0 4')), leafProfile(1.3, 0.3));

/** One of the scales that a cardoon's head is clad with, its point up. */
export function bract(at: Placing, ground: Ink, ink: Ink, mark: Ink): Piece[] {
  return [piece(ground, place(GAP, at)), piece(ink, place(SCALE, at)), piece(mark, place(MARK, at))];
}
