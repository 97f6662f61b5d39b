import { type Piece, piece, placeAll } from './artwork.ts';
import { curveThrough } from './curve.ts';
import { disc, edged, leafProfile, ribbon, stem } from './cut.ts';
import { join, type Placing, path } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, KELP, LIMEWASH, QUINCE, SAMPHIRE } from './palette.ts';

/** A bird that sits at the origin and looks to the right. */
export function bird(placing: Placing): Piece[] {
  const body = edged(
    path('-14 2, -16 -10, -6 -24, 9 -31'),
    path('9 -31, 17 -31, 19 -24'),
    path('19 -24, 18 -10, 8 0, -14 2'),
  );
  const breast = edged(path('19 -24, 18 -10, 8 0, -8 1.6'), path('-8 1.6, 2 -6, 7 -15, 12 -21, 19 -24'));
  return placeAll(
    [
      piece(DEEP_WATER, join(stem(path('2 0, 2 7'), 0.7), stem(path('7 -1, 7.5 7'), 0.7))),
      piece(
        DEEP_WATER,
        edged(path('-10 -4, -24 3, -40 13'), path('-40 13, -36 17'), path('-36 17, -20 9, -6 1')),
      ),
      piece(KELP, body),
      piece(FLOWERPOT, breast),
      piece(DEEP_WATER, edged(path('6 -19, -4 -17, -14 -8, -27 4'), path('-27 4, -10 2, 2 -6, 6 -19'))),
      piece(SAMPHIRE, ribbon(curveThrough(path('3 -15, -6 -10, -15 -2')), leafProfile(1.2, 0.4))),
      piece(QUINCE, edged(path('18.4 -28.5, 24.5 -25, 18.8 -24'))),
      piece(LIMEWASH, disc([13.6, -26.4], 1.9)),
      piece(DEEP_WATER, disc([13.9, -26.4], 1)),
    ],
    placing,
  );
}
