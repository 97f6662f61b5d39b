import { randomStream } from '../../src/field/index.ts';
import { type Artwork, type Pen, type Piece, piece, placeAll } from './artwork.ts';
import { curveThrough, loopThrough } from './curve.ts';
import { disc, edged, leafProfile, petal, ribbon, stem, wheel } from './cut.ts';
import { plainLeaf } from './foliage.ts';
import { join, type Placing, type Point, path, place, placePoint, polar, type Shape } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, KELP, LIMEWASH, QUINCE, RHUBARB, SAMPHIRE, SEA_FOG } from './palette.ts';
import { type Round, scatter } from './scatter.ts';

const SIZE = 250;
const SEED = 'autumn';
/** Turns by the golden angle: no two motifs lie alike, and none of the directions is favoured. */
const GOLDEN_ANGLE = 137.508;

interface Sort {
  readonly kin: string;
  readonly count: number;
  readonly draw: () => Piece[];
  /** What must not touch a neighbour. */
  readonly rounds: readonly Round[];
}

const SORTS: readonly Sort[] = [
  {
    kin: 'fruit',
    count: 5,
    draw: quince,
    rounds: [
      [0, 0, 27],
      [25, -33, 11],
      [12, -33, 8],
      [-22, -33, 10],
      [-10, -32, 7],
    ],
  },
  {
    kin: 'fruit',
    count: 3,
    draw: halfQuince,
    rounds: [
      [0, 0, 26],
      [-1, -27, 4],
    ],
  },
  { kin: 'blossom', count: 6, draw: blossom, rounds: [[0, 0, 17]] },
  {
    kin: 'twig',
    count: 8,
    draw: twig,
    rounds: [
      [1, 10, 6],
      [0, -2, 8],
      [15, 0, 7],
      [-14, -2, 7],
      [0, -20, 8],
    ],
  },
  { kin: 'petal', count: 12, draw: fallenPetal, rounds: [[0, 0, 4]] },
];

export const WINDFALL: Artwork = {
  name: 'windfall',
  title: 'Windfall',
  layout: 'straight',
  width: SIZE,
  height: SIZE,
  ground: SEA_FOG.hex,
  inks: [LIMEWASH, SAMPHIRE, KELP, DEEP_WATER, QUINCE, FLOWERPOT, RHUBARB],
  draw(pen: Pen) {
    const motifs = SORTS.flatMap((sort) => Array.from({ length: sort.count }, () => sort)).map(
      (sort, index) => ({ ...sort, placing: { turn: index * GOLDEN_ANGLE, flip: index % 2 === 1 } }),
    );
    const origins = scatter(
      motifs.map(({ rounds, kin, placing }) => ({
        kin,
        rounds: rounds.map(([x, y, radius]) => [...placePoint([x, y], placing), radius] as const),
      })),
      SIZE,
      SIZE,
      randomStream(SEED, 'ground'),
    );
    motifs.forEach(({ draw, placing }, index) => {
      const [x, y] = origins[index];
      pen.lay(...placeAll(draw(), { x, y, ...placing }));
    });
  },
};

const SKIN: readonly Point[] = path(
  '0 -22, 10 -25, 22 -15, 26 3, 19 19, 7 25, 0 23.5, -8 25.5, -21 18, -27 0, -22 -16, -9 -25',
);

function quince(): Piece[] {
  const shade = edged(
    path('-9 -25, -22 -16, -27 0, -21 18, -8 25.5, 0 23.5, 7 25'),
    path('7 25, -6 19, -14 6, -14 -10, -9 -25'),
  );
  return [
    ...foliage(),
    piece(QUINCE, [loopThrough(SKIN)]),
    piece(FLOWERPOT, shade),
    piece(LIMEWASH, ribbon(curveThrough(path('11 -17, 18 -8, 20 4')), leafProfile(1.9, 0.4))),
    piece(KELP, calyx([1, 17])),
  ];
}

function foliage(): Piece[] {
  const right = plainLeaf(path('1 -27, 12 -38, 26 -38, 38 -27'), 9, 4);
  const left = plainLeaf(path('0 -26, -10 -37, -22 -38, -32 -30'), 7.5, 4);
  return [
    piece(KELP, join(right.left, left.right)),
    piece(SAMPHIRE, join(right.right, left.left)),
    piece(SEA_FOG, join(right.veins, left.veins)),
    piece(DEEP_WATER, stem(path('0 -18, 1 -28, -3 -37'), 1.6, 2.1)),
  ];
}

function calyx(centre: Point): Shape {
  return wheel(5, -90, (turn) => place(petal(7, 3.6, 0.5), { x: centre[0], y: centre[1], turn }));
}

function halfQuince(): Piece[] {
  const outer = place([loopThrough(SKIN)], { scale: 0.96 });
  return [
    piece(QUINCE, outer),
    piece(RHUBARB, place([loopThrough(SKIN)], { scale: 0.83 })),
    piece(
      LIMEWASH,
      wheel(5, -90, (turn) => place(petal(14, 8.5, 0.62), { y: 0.5, turn })),
    ),
    piece(
      DEEP_WATER,
      wheel(5, -90, (turn) => place(petal(6.5, 3.2, 0.5), { ...shift(polar(turn, 4.6)), turn })),
    ),
    piece(DEEP_WATER, stem(path('0 -19, 0.5 -25, -2 -30'), 1.4, 1.9)),
    piece(KELP, place(calyx([0, 0]), { y: 23, scale: 0.8 })),
  ];
}

function blossom(): Piece[] {
  const broad = edged(
    path('0 0, 7 -6.6, 14 -7, 17.5 -2.4'),
    path('17.5 -2.4, 15.6 0, 17.5 2.4'),
    path('17.5 2.4, 14 7, 7 6.6, 0 0'),
  );
  return [
    piece(
      LIMEWASH,
      wheel(5, -90, (turn) => place(broad, { turn })),
    ),
    piece(
      RHUBARB,
      wheel(5, -90, (turn) => place(petal(10, 4.6, 0.55), { turn })),
    ),
    piece(QUINCE, disc([0, 0], 3)),
    piece(
      FLOWERPOT,
      wheel(5, -54, (turn) =>
        join(stem([polar(turn, 2), polar(turn, 8)], 0.45), disc(polar(turn, 8.4), 1.25)),
      ),
    ),
  ];
}

function twig(): Piece[] {
  const line: Point[] = path('0 20, 2 8, 0 -4, -4 -15');
  const leaves = [
    plainLeaf(path('1.5 10, 8 2, 15 -2, 20 -10'), 5.4, 3),
    plainLeaf(path('1.5 5, -6 0, -12 0, -20 -6'), 5.4, 3),
    plainLeaf(path('-2 -10, -3 -17, -1 -22, 4 -28'), 5, 3),
  ];
  return [
    piece(DEEP_WATER, stem(line, 1.1, 0.7)),
    piece(KELP, join(...leaves.map(({ left }) => left))),
    piece(SAMPHIRE, join(...leaves.map(({ right }) => right))),
    piece(SEA_FOG, join(...leaves.map(({ veins }) => veins))),
  ];
}

function fallenPetal(): Piece[] {
  return [piece(LIMEWASH, place(petal(10, 6.4, 0.62), { x: -5 }))];
}

function shift([x, y]: Point): Placing {
  return { x, y };
}
