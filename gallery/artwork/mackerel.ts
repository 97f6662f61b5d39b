import { type Artwork, type Ink, type Piece, piece, placeAll } from './artwork.ts';
import { curveThrough } from './curve.ts';
import { disc, edged, leafProfile, petal, ribbon } from './cut.ts';
import { join, type Placing, type Point, path, place, type Shape } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, LIMEWASH, QUINCE, RHUBARB, SEA_FOG } from './palette.ts';

const WIDTH = 160;
const ROW_HEIGHT = 44;
/** Three rows swim to the right; turned about, they are the three between that swim to the left. */
const ROWS = 6;

export const MACKEREL: Artwork = {
  name: 'mackerel',
  title: 'Mackerel',
  layout: 'turn',
  width: WIDTH,
  height: ROWS * ROW_HEIGHT,
  ground: RHUBARB.hex,
  inks: [DEEP_WATER, SEA_FOG, LIMEWASH, QUINCE, FLOWERPOT],
  draw(pen) {
    const shoal: readonly [row: number, x: number, lean: number, coat: Coat][] = [
      [0, 44, -3, COATS[0]],
      [0, 206, 3, COATS[1]],
      [2, 40, 3, COATS[2]],
      [2, 203, -3, COATS[0]],
      [4, 34, -3, COATS[1]],
      [4, 197, 3, COATS[2]],
    ];
    for (const [row, x, turn, coat] of shoal) {
      pen.lay(...fish(coat, { x, y: (row + 0.5) * ROW_HEIGHT, turn }));
    }
  },
};

interface Coat {
  readonly back: Ink;
  readonly belly: Ink;
  readonly line: Ink;
  readonly fin: Ink;
}

const COATS: readonly Coat[] = [
  { back: DEEP_WATER, belly: SEA_FOG, line: LIMEWASH, fin: FLOWERPOT },
  { back: FLOWERPOT, belly: LIMEWASH, line: QUINCE, fin: DEEP_WATER },
  { back: DEEP_WATER, belly: LIMEWASH, line: QUINCE, fin: QUINCE },
];

const NOSE: Point = [60, 3];
const BACK: readonly Point[] = [[-46, 0.4], [-30, -4.5], [-6, -12], [20, -14.5], [45, -8], NOSE];
const FLANK: readonly Point[] = [NOSE, [32, 2], [0, 0.5], [-46, 2.6]];
const BELLY: readonly Point[] = [NOSE, [44, 12], [18, 16.5], [-8, 13.5], [-30, 8], [-46, 4.8]];
const TAIL: Shape = edged(
  path('-43 0.6, -53 -4, -66 -15'),
  path('-66 -15, -57 2, -63 20'),
  path('-63 20, -53 9, -43 4.6'),
  path('-43 4.6, -34 2.8, -43 0.6'),
);

/** A fish that swims to the right, 126 mm from nose to tail. */
function fish({ back, belly, line, fin }: Coat, placing: Placing): Piece[] {
  return placeAll(
    [
      piece(fin, FINS),
      piece(back, edged(BACK, FLANK)),
      piece(belly, edged(BELLY, [...FLANK].reverse())),
      piece(back, TAIL),
      piece(RHUBARB, BARS),
      piece(line, ribbon(curveThrough(path('33 2.6, 0 1.6, -36 2.7')), leafProfile(1.7, 0.3, 0.5))),
      piece(belly, GILL),
      piece(LIMEWASH, join(disc([72, 5], 2.6), disc([79, -1], 1.9), disc([80, 8], 1.3))),
      piece(line, place(petal(15, 7.5, 0.6), { x: 30, y: 7, turn: 158 })),
      piece(LIMEWASH, disc([47.5, -0.6], 3.3)),
      piece(DEEP_WATER, disc([47.9, -0.6], 1.7)),
    ],
    placing,
  );
}

const FINS: Shape = join(
  edged(path('22 -12, 12 -21, 0 -22.5'), path('0 -22.5, 4 -16, 4 -11')),
  edged(path('-14 -8, -20 -15, -27 -16'), path('-27 -16, -25 -9, -25 -5')),
  edged(path('16 14, 6 23, -3 23.5'), path('-3 23.5, 0 18, 1 13')),
  edged(path('-14 11, -22 18, -28 18'), path('-28 18, -26 12, -26 8')),
  ...[-30.5, -35.5, -40].map((x) =>
    edged([
      [x + 3, -1],
      [x - 3, -8 - (x + 40) * 0.15],
      [x - 1, -1],
    ]),
  ),
  ...[-30.5, -35.5, -40].map((x) =>
    edged([
      [x + 3, 5],
      [x - 3, 12 + (x + 40) * 0.15],
      [x - 1, 5],
    ]),
  ),
);

/** The bars of the back are left open, so that the ground shows. */
const BARS: Shape = join(
  ...Array.from({ length: 10 }, (_, index) => {
    const x = 27.5 - index * 6.2;
    const top = -12.6 + Math.max(0, 8 - x) ** 1.25 * 0.085;
    return ribbon(
      curveThrough([
        [x + 2, top],
        [x - 2.2, top * 0.72],
        [x + 0.6, top * 0.45],
        [x - 2.4, -0.5 + top * 0.08],
      ]),
      leafProfile(1.25, 0.25, 0.6),
    );
  }),
);

const GILL: Shape = ribbon(curveThrough(path('38 -9.6, 34 -3, 34 5, 38 12.4')), leafProfile(1.3, 0.5, 0.5));
