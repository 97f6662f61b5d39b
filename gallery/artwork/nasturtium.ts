import { type Artwork, type Ink, type Pen, type Piece, piece, placeAll } from './artwork.ts';
import { curveThrough, loopThrough } from './curve.ts';
import { disc, edged, ribbon, stem, taper, wheel } from './cut.ts';
import { join, type Point, path, place, polar, type Shape } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, KELP, LIMEWASH, QUINCE, RHUBARB, SAMPHIRE } from './palette.ts';

/** Leaves as broad washes, one over the other: what a painter would charge with water while it is wet. */
export const NASTURTIUM: Artwork = {
  name: 'nasturtium',
  title: 'Nasturtium',
  layout: 'drop:1/2',
  width: 200,
  height: 240,
  ground: QUINCE.hex,
  inks: [LIMEWASH, SAMPHIRE, KELP, DEEP_WATER, FLOWERPOT, RHUBARB],
  draw(pen: Pen) {
    for (const line of STEMS) pen.lay(piece(KELP, stem(path(line), 1.5)));
    for (const [x, y, radius, turn, ink, veins] of LEAVES)
      pen.lay(...placeAll(leaf(radius, ink, veins), { x, y, turn }));
    for (const [x, y, scale, turn, ink, throat] of FLOWERS)
      pen.lay(...placeAll(flower(ink, throat), { x, y, turn, scale }));
    for (const [x, y, turn] of BUDS) pen.lay(...placeAll(bud(), { x, y, turn }));
  },
};

const STEMS = [
  '16 22, 24 44, 60 60, 88 96, 92 150, 70 196, 28 230, 16 262',
  '88 96, 128 88, 160 60, 172 20',
  '92 150, 130 176, 152 214',
];

/** Where a leaf lies and how large it is, mm; its turn in degrees; its wash and its veins. */
const LEAVES: readonly (readonly [number, number, number, number, Ink, Ink])[] = [
  [52, 62, 37, 20, DEEP_WATER, SAMPHIRE],
  [118, 34, 26, 150, SAMPHIRE, KELP],
  [146, 104, 41, 250, SAMPHIRE, KELP],
  [34, 146, 33, 80, KELP, SAMPHIRE],
  [112, 196, 38, 310, DEEP_WATER, SAMPHIRE],
  [178, 174, 27, 30, KELP, SAMPHIRE],
  [60, 218, 25, 200, SAMPHIRE, KELP],
  [176, 36, 19, 100, KELP, SAMPHIRE],
  [88, 118, 17, 10, SAMPHIRE, KELP],
  [14, 14, 15, 60, SAMPHIRE, KELP],
];

/** Place mm, scale, turn, petals and throat. */
const FLOWERS: readonly (readonly [number, number, number, number, Ink, Ink])[] = [
  [92, 76, 1.15, -20, FLOWERPOT, QUINCE],
  [166, 138, 0.95, 35, RHUBARB, FLOWERPOT],
  [58, 178, 1.1, 80, FLOWERPOT, DEEP_WATER],
  [148, 20, 0.85, 160, RHUBARB, FLOWERPOT],
  [150, 222, 1, -70, LIMEWASH, FLOWERPOT],
];

const BUDS = [
  [18, 98, 200],
  [196, 96, -30],
  [112, 150, 120],
  [22, 200, 240],
] as const;

/** A shield-shaped leaf: its stalk stands off the middle, and broad veins run out from there to the waves of its edge. */
function leaf(radius: number, ink: Ink, veins: Ink): Piece[] {
  const edge = Array.from({ length: 36 }, (_, step) => {
    const angle = step * 10;
    const wave =
      1 + 0.05 * Math.cos((9 * angle * Math.PI) / 180) + 0.04 * Math.sin((2 * angle * Math.PI) / 180);
    return polar(angle, radius * wave);
  });
  const heart: Point = [0, -radius * 0.16];
  const runs = Array.from({ length: 9 }, (_, index) => {
    const end = polar(index * 40, radius * 0.84);
    const bend: Point = [(heart[0] + end[0]) / 2 + radius * 0.04, (heart[1] + end[1]) / 2 + radius * 0.03];
    return ribbon(curveThrough([heart, bend, end]), taper(radius * 0.035, radius * 0.008), undefined, 24);
  });
  return [piece(ink, [loopThrough(edge)]), piece(veins, join(disc(heart, radius * 0.07), ...runs))];
}

/** Five petals about a throat, narrow at the root so that the throat shows between. */
function flower(ink: Ink, throat: Ink): Piece[] {
  const broad = edged(
    path('2 0, 8 -4, 15 -11, 23 -10.5, 27 -5'),
    path('27 -5, 25.4 0, 27 5'),
    path('27 5, 23 10.5, 15 11, 8 4, 2 0'),
  );
  const rays: Shape = wheel(5, -90, (turn) =>
    join(...[-14, 0, 14].map((lean) => ribbon([polar(turn, 3), polar(turn + lean, 13)], taper(1.1, 0.3)))),
  );
  return [
    piece(
      ink,
      join(
        disc([0, 0], 16),
        wheel(5, -90, (turn) => place(broad, { turn })),
      ),
    ),
    piece(throat, rays),
    piece(throat, disc([0, 0], 4.2)),
    piece(LIMEWASH === ink ? QUINCE : LIMEWASH, disc([0, 0], 1.8)),
  ];
}

function bud(): Piece[] {
  return [
    piece(KELP, stem(path('0 0, 2 8, 0 18'), 1.2, 1)),
    piece(FLOWERPOT, edged(path('0 -13, 5 -6, 5 0, 0 3'), path('0 3, -5 0, -5 -6, 0 -13'))),
    piece(SAMPHIRE, edged(path('-5 -2, 0 0, 5 -2, 4 4, 0 6'), path('0 6, -4 4, -5 -2'))),
  ];
}
