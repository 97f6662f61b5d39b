import { type Piece, piece, placeAll } from './artwork.ts';
import { curveThrough, loopThrough } from './curve.ts';
import { disc, edged, leafProfile, petal, ribbon, stem, wheel } from './cut.ts';
import { plainLeaf } from './foliage.ts';
import { join, type Point, path, place, polar } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, KELP, LIMEWASH, QUINCE, RHUBARB, SAMPHIRE } from './palette.ts';

/** Three leaves of a spur. Grows up from the origin. */
export function leaves(lean: number): Piece[] {
  const cuts = [
    plainLeaf(path('0 -2, 5 -13, 14 -21, 27 -24'), 6.6, 4),
    plainLeaf(path('0 -2, -5 -13, -13 -22, -25 -26'), 6.2, 4),
    plainLeaf(path('0 -2, -1 -14, 2 -24, 1 -36'), 6.4, 4),
  ];
  return placeAll(
    [
      piece(KELP, join(...cuts.map(({ left }) => left))),
      piece(SAMPHIRE, join(...cuts.map(({ right }) => right))),
      piece(LIMEWASH, join(...cuts.map(({ veins }) => veins))),
    ],
    { turn: lean },
  );
}

const PEAR: readonly Point[] = path(
  '0 -12, 4.6 -15, 7 -24, 12.5 -34, 13 -44, 6 -50.5, 0 -50, -6 -50.5, -13 -44, -12.5 -34, -7 -24, -4.6 -15',
);

/** A pear on its stalk. Grows up from the origin. */
export function pear(lean: number): Piece[] {
  const blush = edged(
    path('-4.6 -15, -7 -24, -12.5 -34, -13 -44, -6 -50.5, 0 -50'),
    path('0 -50, -6 -43, -5.5 -33, -2.5 -24, -4.6 -15'),
  );
  return placeAll(
    [
      piece(DEEP_WATER, stem(path('0 0, 1 -7, 0 -14'), 1, 0.8)),
      piece(QUINCE, [loopThrough(PEAR)]),
      piece(FLOWERPOT, blush),
      piece(LIMEWASH, ribbon(curveThrough(path('4.6 -27, 8.6 -35, 8.8 -42')), leafProfile(1.2, 0.5))),
      piece(
        KELP,
        wheel(5, 90, (turn) => place(petal(4.6, 2.4, 0.5), { y: -49.5, turn })),
      ),
    ],
    { turn: lean },
  );
}

/** An open blossom on its stalk. Grows up from the origin. */
export function blossom(): Piece[] {
  const centre: Point = [0, -17];
  const at = { x: centre[0], y: centre[1] };
  return [
    piece(DEEP_WATER, stem(path('0 0, 0 -16'), 0.8)),
    piece(
      RHUBARB,
      wheel(5, -90, (turn) => place(petal(12.5, 10, 0.62), { ...at, turn })),
    ),
    piece(
      LIMEWASH,
      wheel(5, -90, (turn) => place(petal(6.5, 2.6, 0.6), { ...at, turn })),
    ),
    piece(
      FLOWERPOT,
      wheel(5, -54, (turn) => disc(polar(turn, 4.6, centre), 0.95)),
    ),
    piece(QUINCE, disc(centre, 1.9)),
  ];
}

/** Two buds. Grows up from the origin. */
export function bud(): Piece[] {
  return [
    piece(DEEP_WATER, join(stem(path('0 0, -2 -7, -6 -12'), 0.75), stem(path('0 -2, 3 -9, 5 -16'), 0.75))),
    piece(
      RHUBARB,
      join(
        place(petal(9, 6.4, 0.6), { x: -5, y: -10, turn: -118 }),
        place(petal(9.5, 6.6, 0.6), { x: 4.6, y: -14, turn: -74 }),
      ),
    ),
    piece(KELP, join(disc([-5.6, -11.6], 1.7), disc([4.9, -15.4], 1.7))),
  ];
}
