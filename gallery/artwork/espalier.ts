import { type Artwork, type Ink, type Pen, type Piece, piece, placeAll } from './artwork.ts';
import { curveThrough, loopThrough, stationAt } from './curve.ts';
import { disc, edged, leafProfile, petal, ribbon, stem, taper, wheel } from './cut.ts';
import { plainLeaf } from './foliage.ts';
import { join, type Placing, type Point, place, polar, type Shape } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, KELP, LIMEWASH, QUINCE, RHUBARB, SAMPHIRE } from './palette.ts';

/** Of the half tree; the mirror makes it a tree 360 mm wide. */
const WIDTH = 180;
const HEIGHT = 300;

export const ESPALIER: Artwork = {
  name: 'espalier',
  title: 'Espalier',
  layout: 'mirror-x',
  width: WIDTH,
  height: HEIGHT,
  ground: LIMEWASH.hex,
  inks: [DEEP_WATER, KELP, SAMPHIRE, QUINCE, FLOWERPOT, RHUBARB],
  draw(pen) {
    pen.lay(
      piece(
        DEEP_WATER,
        ribbon(
          [
            [0, -10],
            [0, HEIGHT + 10],
          ],
          () => 4.4,
        ),
      ),
    );
    for (const tier of TIERS) drawArm(pen, tier);
    pen.lay(...bird({ x: 96, y: 172.5 }));
    layMoth(pen, [WIDTH, 124]);
    layPetals(pen, [WIDTH, 226]);
  },
};

/** What grows at one place of an arm: above it and below it. */
type Growth = 'leaves' | 'pear' | 'blossom' | 'bud' | 'perch';

interface Tier {
  /** Where the arm leaves the trunk, mm. */
  readonly y: number;
  readonly above: readonly Growth[];
  readonly below: readonly Growth[];
  /** Degrees that this tier's leaves are turned by, so that no two tiers are alike. */
  readonly lean: number;
}

const TIERS: readonly Tier[] = [
  {
    y: 90,
    above: ['leaves', 'blossom', 'leaves', 'leaves', 'bud', 'leaves'],
    below: ['bud', 'pear', 'leaves', 'pear', 'bud', 'leaves'],
    lean: 0,
  },
  {
    y: 190,
    above: ['leaves', 'leaves', 'perch', 'perch', 'leaves', 'leaves'],
    below: ['pear', 'bud', 'pear', 'leaves', 'pear', 'bud'],
    lean: 9,
  },
  {
    y: 290,
    above: ['bud', 'leaves', 'leaves', 'blossom', 'leaves', 'leaves'],
    below: ['leaves', 'pear', 'bud', 'pear', 'leaves', 'bud'],
    lean: -8,
  },
];

const STATIONS = [0.23, 0.37, 0.5, 0.63, 0.77, 0.92];

function drawArm(pen: Pen, { y, above, below, lean }: Tier): void {
  const points: Point[] = [
    [0, y + 16],
    [9, y],
    [34, y - 8],
    [78, y - 9],
    [120, y - 7],
    [145, y - 15],
    [153, y - 41],
  ];
  const line = curveThrough(points);
  const pieces = STATIONS.flatMap((t, index) => {
    const { point, along } = stationAt(line, t);
    const slope = (Math.atan2(along[1], along[0]) * 180) / Math.PI;
    const at = { x: point[0], y: point[1] };
    return [
      ...growth(
        below[index],
        { ...at, turn: index === 5 ? slope + 58 : 180 + slope * 0.4 },
        index % 2 ? -lean : lean,
      ),
      ...growth(above[index], { ...at, turn: index === 5 ? slope - 90 + 60 : slope * 0.4 }, lean),
    ];
  });
  pen.lay(...pieces.filter(({ ink }) => ink === DEEP_WATER));
  pen.lay(piece(DEEP_WATER, ribbon(line, taper(3.2, 1.1), undefined, 160)));
  pen.lay(...pieces);
}

/** Something that grows up from the origin; `placing.turn` of 180 hangs it. */
function growth(kind: Growth, placing: Placing, lean: number): Piece[] {
  switch (kind) {
    case 'leaves':
      return placeAll(leaves(lean), placing);
    case 'pear':
      return placeAll(pear(lean * 0.6), placing);
    case 'blossom':
      return placeAll(blossom(), placing);
    case 'bud':
      return placeAll(bud(), placing);
    case 'perch':
      return [];
  }
}

function leaves(lean: number): Piece[] {
  const cuts = [
    plainLeaf(
      [
        [0, -2],
        [5, -13],
        [14, -21],
        [27, -24],
      ],
      6.6,
      4,
    ),
    plainLeaf(
      [
        [0, -2],
        [-5, -13],
        [-13, -22],
        [-25, -26],
      ],
      6.2,
      4,
    ),
    plainLeaf(
      [
        [0, -2],
        [-1, -14],
        [2, -24],
        [1, -36],
      ],
      6.4,
      4,
    ),
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

const PEAR: readonly Point[] = [
  [0, -12],
  [4.6, -15],
  [7, -24],
  [12.5, -34],
  [13, -44],
  [6, -50.5],
  [0, -50],
  [-6, -50.5],
  [-13, -44],
  [-12.5, -34],
  [-7, -24],
  [-4.6, -15],
];

function pear(lean: number): Piece[] {
  const blush = edged(
    [
      [-4.6, -15],
      [-7, -24],
      [-12.5, -34],
      [-13, -44],
      [-6, -50.5],
      [0, -50],
    ],
    [
      [0, -50],
      [-6, -43],
      [-5.5, -33],
      [-2.5, -24],
      [-4.6, -15],
    ],
  );
  return placeAll(
    [
      piece(
        DEEP_WATER,
        stem(
          [
            [0, 0],
            [1, -7],
            [0, -14],
          ],
          1,
          0.8,
        ),
      ),
      piece(QUINCE, [loopThrough(PEAR)]),
      piece(FLOWERPOT, blush),
      piece(
        LIMEWASH,
        ribbon(
          curveThrough([
            [4.6, -27],
            [8.6, -35],
            [8.8, -42],
          ]),
          leafProfile(1.2, 0.5),
        ),
      ),
      piece(
        KELP,
        wheel(5, 90, (turn) => place(petal(4.6, 2.4, 0.5), { y: -49.5, turn })),
      ),
    ],
    { turn: lean },
  );
}

function blossom(): Piece[] {
  const centre: Point = [0, -17];
  const at = { x: centre[0], y: centre[1] };
  return [
    piece(
      DEEP_WATER,
      stem(
        [
          [0, 0],
          [0, -16],
        ],
        0.8,
      ),
    ),
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

function bud(): Piece[] {
  return [
    piece(
      DEEP_WATER,
      join(
        stem(
          [
            [0, 0],
            [-2, -7],
            [-6, -12],
          ],
          0.75,
        ),
        stem(
          [
            [0, -2],
            [3, -9],
            [5, -16],
          ],
          0.75,
        ),
      ),
    ),
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

/** A bird that sits at the origin and looks to the right. */
function bird(placing: Placing): Piece[] {
  const body = edged(
    [
      [-14, 2],
      [-16, -10],
      [-6, -24],
      [9, -31],
    ],
    [
      [9, -31],
      [17, -31],
      [19, -24],
    ],
    [
      [19, -24],
      [18, -10],
      [8, 0],
      [-14, 2],
    ],
  );
  const breast = edged(
    [
      [19, -24],
      [18, -10],
      [8, 0],
      [-8, 1.6],
    ],
    [
      [-8, 1.6],
      [2, -6],
      [7, -15],
      [12, -21],
      [19, -24],
    ],
  );
  return placeAll(
    [
      piece(
        DEEP_WATER,
        join(
          stem(
            [
              [2, 0],
              [2, 7],
            ],
            0.7,
          ),
          stem(
            [
              [7, -1],
              [7.5, 7],
            ],
            0.7,
          ),
        ),
      ),
      piece(
        DEEP_WATER,
        edged(
          [
            [-10, -4],
            [-24, 3],
            [-40, 13],
          ],
          [
            [-40, 13],
            [-36, 17],
          ],
          [
            [-36, 17],
            [-20, 9],
            [-6, 1],
          ],
        ),
      ),
      piece(KELP, body),
      piece(FLOWERPOT, breast),
      piece(
        DEEP_WATER,
        edged(
          [
            [6, -19],
            [-4, -17],
            [-14, -8],
            [-27, 4],
          ],
          [
            [-27, 4],
            [-10, 2],
            [2, -6],
            [6, -19],
          ],
        ),
      ),
      piece(
        SAMPHIRE,
        ribbon(
          curveThrough([
            [3, -15],
            [-6, -10],
            [-15, -2],
          ]),
          leafProfile(1.2, 0.4),
        ),
      ),
      piece(
        QUINCE,
        edged([
          [18.4, -28.5],
          [24.5, -25],
          [18.8, -24],
        ]),
      ),
      piece(LIMEWASH, disc([13.6, -26.4], 1.9)),
      piece(DEEP_WATER, disc([13.9, -26.4], 1)),
    ],
    placing,
  );
}

/** A moth whose body lies on the right mirror; only its left wings are drawn. */
function layMoth(pen: Pen, [x, y]: Point): void {
  const upper = edged(
    [
      [-1, 0],
      [-8, -14],
      [-20, -20],
    ],
    [
      [-20, -20],
      [-20, -8],
      [-11, 1],
      [-1, 2],
    ],
  );
  const lower = edged(
    [
      [-1, 1],
      [-12, 4],
      [-14, 12],
    ],
    [
      [-14, 12],
      [-9, 18],
      [-3, 14],
      [-1, 5],
    ],
  );
  const marks = join(disc([-13.5, -10.5], 2.1), disc([-9, 10.5], 1.6));
  for (const [ink, shape] of [
    [RHUBARB, lower],
    [QUINCE, upper],
    [DEEP_WATER, marks],
  ] as [Ink, Shape][]) {
    pen.lay(piece(ink, place(shape, { x, y })));
  }
  const feeler = ribbon(
    curveThrough([
      [0, -7],
      [-2.5, -14],
      [-7, -18],
    ]),
    taper(0.6, 0.35),
  );
  pen.lay(
    piece(
      DEEP_WATER,
      join(
        place(feeler, { x, y }),
        ribbon(
          [
            [x, y - 9],
            [x, y + 15],
          ],
          leafProfile(2.4, 0.35),
        ),
      ),
    ),
  );
}

/** Petals that fall down the right mirror. */
function layPetals(pen: Pen, [x, y]: Point): void {
  const falls = [
    [0, 9],
    [16, 7.5],
    [30, 6],
  ] as const;
  pen.lay(
    piece(
      RHUBARB,
      join(
        ...falls.map(([below, length]) => place(petal(length, length * 0.7), { x, y: y + below, turn: 90 })),
      ),
    ),
  );
}
