import { type Artwork, type Ink, type Piece, piece, placeAll } from './artwork.ts';
import { arc } from './curve.ts';
import { disc, outline, petal, smooth, stem, wheel } from './cut.ts';
import { plainLeaf } from './foliage.ts';
import { join, type Point, path, place, polar, type Shape } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, KELP, LIMEWASH, QUINCE, RHUBARB, SAMPHIRE, SEA_FOG } from './palette.ts';

const ACROSS = 3;
const ROWS = 4;
/** Half the width of a glass, and the radius of its dome, mm. */
const RADIUS = 30;
const ROW_HEIGHT = 60;

interface Glass {
  readonly glass: Ink;
  readonly rim: Ink;
  readonly leaf: Ink;
  readonly shade: Ink;
  readonly flower: Ink;
}

const GLASSES: readonly Glass[] = [
  { glass: SEA_FOG, rim: LIMEWASH, leaf: DEEP_WATER, shade: KELP, flower: FLOWERPOT },
  { glass: DEEP_WATER, rim: SEA_FOG, leaf: SAMPHIRE, shade: SEA_FOG, flower: RHUBARB },
  { glass: QUINCE, rim: LIMEWASH, leaf: KELP, shade: DEEP_WATER, flower: LIMEWASH },
];

export const CLOCHES: Artwork = {
  name: 'cloches',
  title: 'Cloches',
  layout: 'brick:1/3',
  width: ACROSS * 2 * RADIUS,
  height: ROWS * ROW_HEIGHT,
  ground: LIMEWASH.hex,
  inks: [SEA_FOG, DEEP_WATER, SAMPHIRE, KELP, QUINCE, FLOWERPOT, RHUBARB],
  draw(pen) {
    for (let row = 0; row < ROWS; row++) {
      for (let column = 0; column < ACROSS; column++) {
        // Each row steps half a glass to the left: four rows come to the third of the brick, less a whole tile.
        const x = (column * 2 + 1 - row) * RADIUS;
        const y = row * ROW_HEIGHT;
        pen.lay(...placeAll(underGlass(GLASSES[column], SEEDLINGS[row]), { x, y }));
      }
    }
  },
};

/** What shows of a glass between the rows below it, `inset` mm inside of its edge. */
function bell(inset: number): Shape {
  const [dome, hollow] = [RADIUS - inset, RADIUS + inset];
  const side = (Math.asin(inset / hollow) * 180) / Math.PI;
  const foot = (Math.acos(RADIUS / hollow) * 180) / Math.PI;
  return outline(
    arc([0, 0], dome, 180, 360),
    arc([RADIUS, ROW_HEIGHT], hollow, 270 - side, 180 + foot),
    arc([-RADIUS, ROW_HEIGHT], hollow, -foot, -90 + side),
  );
}

type Seedling = (colours: Glass) => Piece[];

function underGlass(colours: Glass, seedling: Seedling): Piece[] {
  return [
    piece(colours.glass, bell(1.1)),
    piece(colours.rim, bell(4.2)),
    piece(colours.glass, bell(5.4)),
    ...seedling(colours),
  ];
}

const SEEDLINGS: readonly Seedling[] = [pair, bean, poppy, fern];

function pair({ glass, leaf, shade, flower }: Glass): Piece[] {
  const right = plainLeaf(path('0 30, 6 14, 15 2, 21 -6'), 6.2, 0);
  const left = plainLeaf(path('0 30, -6 14, -15 2, -21 -6'), 6.2, 0);
  return [
    piece(leaf, join(stem(path('0 40, 0 20, 0 0'), 1.3, 1), right.left, left.right)),
    piece(shade, join(right.right, left.left)),
    piece(glass, join(right.veins, left.veins)),
    piece(
      flower,
      join(...[-24, 0, 24].map((lean) => place(petal(20, 8.6, 0.58), { y: 1, turn: lean - 90 }))),
    ),
  ];
}

function bean({ leaf, shade, flower }: Glass): Piece[] {
  const stalk: Point[] = path('0 40, -3 30, 3 14, -2 -1, 3 -11');
  return [
    piece(leaf, stem(stalk, 1.3, 0.9)),
    piece(
      leaf,
      join(smooth(path('0 25, 9 14, 18 13, 19 20, 11 26')), smooth(path('0 8, -8 -4, -17 -5, -19 2, -11 8'))),
    ),
    piece(
      shade,
      join(
        smooth(path('-2 31, -8 20, -16 18, -18 24, -11 29')),
        smooth(path('2 0, 10 -9, 18 -9, 19 -3, 11 2')),
      ),
    ),
    piece(flower, join(disc([3.4, -14.5], 4.4), disc([-5.5, -16], 2.2), disc([10.6, -17.5], 2))),
  ];
}

function poppy({ glass, leaf, shade, flower }: Glass): Piece[] {
  const right = plainLeaf(path('0 36, 7 28, 13 17, 15 6'), 4.6, 0);
  const left = plainLeaf(path('0 36, -7 28, -13 17, -15 6'), 4.6, 0);
  return [
    piece(leaf, join(stem(path('0 40, 0 16, 0 -6'), 1.3, 1), right.left, left.right)),
    piece(shade, join(right.right, left.left)),
    piece(glass, join(right.veins, left.veins)),
    piece(
      flower,
      wheel(8, -90, (turn) => place(petal(14.5, 8.5, 0.62), { y: -8, turn })),
    ),
    piece(leaf, disc([0, -8], 3.6)),
  ];
}

function fern({ leaf, shade, flower }: Glass): Piece[] {
  const fronds = [-2, -1, 0, 1, 2, 3].flatMap((step) => {
    const y = 28 - (step + 2) * 7.4;
    const length = 17 - Math.abs(step + 0.6) * 2;
    return [-1, 1].map((side) => ({
      side,
      shape: place(petal(length, 5.6, 0.6), { y, turn: side > 0 ? -34 : -146 }),
    }));
  });
  return [
    piece(leaf, stem(path('0 40, 0 20, 0 -14'), 1.3, 0.8)),
    piece(leaf, join(...fronds.filter(({ side }) => side < 0).map(({ shape }) => shape))),
    piece(shade, join(...fronds.filter(({ side }) => side > 0).map(({ shape }) => shape))),
    piece(flower, join(...[0, 1, 2].map((i) => disc(polar(-90 + (i - 1) * 54, 8, [0, -11]), 2)))),
  ];
}
