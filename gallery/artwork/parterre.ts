import { type Artwork, type Ink, type Pen, type Piece, piece } from './artwork.ts';
import { bezier, curveThrough, stationsAlong } from './curve.ts';
import { disc, edged, leafProfile, outline, petal, ribbon, wheel } from './cut.ts';
import { type LeafCut, lobedLeaf } from './foliage.ts';
import { join, type Placing, type Point, place, polar, type Shape } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, LIMEWASH, QUINCE, RHUBARB, SAMPHIRE, SEA_FOG } from './palette.ts';

/** Of the quarter; the mirrors make it a bed of 400 x 520 mm. */
const WIDTH = 200;
const HEIGHT = 260;
/** Half the gap between two paths where they run side by side, mm. */
const LANE = 13;

export const PARTERRE: Artwork = {
  name: 'parterre',
  title: 'Parterre',
  layout: 'mirror-xy',
  width: WIDTH,
  height: HEIGHT,
  ground: FLOWERPOT.hex,
  inks: [DEEP_WATER, SEA_FOG, LIMEWASH, SAMPHIRE, RHUBARB, QUINCE],
  draw(pen) {
    drawBeds(pen);
    drawPath(pen);
    drawFirstBed(pen);
    drawSecondBed(pen);
    drawClasps(pen);
  },
};

/** The path between the two beds: upright where it meets the mirrors, so that it runs on without a kink. */
const PATH: readonly Point[] = [
  [WIDTH - LANE, -12],
  ...bezier([WIDTH - LANE, 0], [WIDTH - LANE, HEIGHT * 0.52], [LANE, HEIGHT * 0.48], [LANE, HEIGHT], 96),
  [LANE, HEIGHT + 12],
];

function drawBeds(pen: Pen): void {
  pen.lay(
    piece(
      DEEP_WATER,
      outline(PATH, [
        [-12, HEIGHT + 12],
        [-12, -12],
      ]),
    ),
  );
}

function drawPath(pen: Pen): void {
  const strip = (ink: Ink, from: number, to: number) =>
    pen.lay(
      piece(
        ink,
        ribbon(
          PATH,
          () => to,
          () => -from,
          240,
        ),
      ),
    );
  strip(LIMEWASH, -6, 6);
  strip(RHUBARB, 8.4, 9.8);
  strip(SEA_FOG, -9.8, -8.4);
  const beads = stationsAlong(PATH.slice(1, -1), 38);
  pen.lay(
    ...beads.map(({ point }, index): Piece => piece(index % 2 ? FLOWERPOT : DEEP_WATER, disc(point, 2.5))),
  );
}

function layLeaf(
  pen: Pen,
  { stalk, left, right, veins }: LeafCut,
  leftInk: Ink,
  rightInk: Ink,
  ground: Ink,
): void {
  pen.lay(piece(leftInk, stalk), piece(leftInk, left), piece(rightInk, right), piece(ground, veins));
}

/** A straight leaf that lies on a mirror, so that its halves are alike. */
function layUprightLeaf(
  pen: Pen,
  from: Point,
  to: Point,
  reach: number,
  count: number,
  ink: Ink,
  ground: Ink,
): void {
  const middle = (share: number): Point => [
    from[0] + (to[0] - from[0]) * share,
    from[1] + (to[1] - from[1]) * share,
  ];
  const leaf = lobedLeaf([from, middle(0.33), middle(0.67), to], { count, reach: [reach, reach], peak: 0.3 });
  layLeaf(pen, leaf, ink, ink, ground);
}

/** The bed round the upper left corner of the quarter. */
function drawFirstBed(pen: Pen): void {
  layLeaf(
    pen,
    lobedLeaf(
      [
        [36, 22],
        [80, 45],
        [124, 46],
        [164, 16],
      ],
      { count: 6, reach: [15, 23] },
    ),
    SEA_FOG,
    SAMPHIRE,
    DEEP_WATER,
  );
  layLeaf(
    pen,
    lobedLeaf(
      [
        [26, 38],
        [58, 66],
        [73, 98],
        [57, 142],
      ],
      { count: 6, reach: [20, 15] },
    ),
    SAMPHIRE,
    SEA_FOG,
    DEEP_WATER,
  );
  pen.lay(
    piece(
      QUINCE,
      ribbon(
        [
          [52, 0],
          [152, 0],
        ],
        leafProfile(13.5, 0.42),
      ),
    ),
    piece(
      RHUBARB,
      ribbon(
        [
          [58, 0],
          [136, 0],
        ],
        leafProfile(8, 0.42),
      ),
    ),
  );
  pen.lay(
    piece(
      LIMEWASH,
      join(
        disc([157, 0], 3.6),
        disc([166.5, 0], 2.6),
        ...[
          [0, 186, 4.2],
          [0, 197, 3.2],
          [0, 206, 2.3],
        ].map(([x, y, r]) => disc([x, y], r)),
      ),
    ),
  );
  drawHead(pen, 96);
  drawRosette(
    pen,
    [0, 0],
    [
      [16, 58, 17, LIMEWASH],
      [16, 45, 12, RHUBARB],
      [16, 34, 9, DEEP_WATER],
      [8, 28, 13, QUINCE],
      [8, 17, 7, FLOWERPOT],
    ],
    LIMEWASH,
  );
}

/** The bed round the lower right corner of the quarter. */
function drawSecondBed(pen: Pen): void {
  layLeaf(
    pen,
    lobedLeaf(
      [
        [176, 222],
        [156, 190],
        [146, 150],
        [170, 104],
      ],
      { count: 6, reach: [20, 18] },
    ),
    DEEP_WATER,
    LIMEWASH,
    FLOWERPOT,
  );
  layLeaf(
    pen,
    lobedLeaf(
      [
        [166, 236],
        [126, 208],
        [84, 206],
        [46, 242],
      ],
      { count: 6, reach: [17, 20] },
    ),
    LIMEWASH,
    DEEP_WATER,
    FLOWERPOT,
  );
  layUprightLeaf(pen, [WIDTH, 220], [WIDTH, 56], 24, 7, QUINCE, FLOWERPOT);
  pen.lay(
    piece(
      LIMEWASH,
      join(
        ...[
          [46, 3.6],
          [36, 2.6],
        ].map(([y, radius]) => disc([WIDTH, y], radius)),
      ),
    ),
  );
  drawFruit(pen, [106, HEIGHT]);
  drawRosette(
    pen,
    [WIDTH, HEIGHT],
    [
      [12, 50, 21, LIMEWASH],
      [12, 38, 15, DEEP_WATER],
      [12, 29, 11, RHUBARB],
      [12, 19, 7, LIMEWASH],
    ],
    QUINCE,
  );
}

/** A quince cut open, on the lower mirror. */
function drawFruit(pen: Pen, [x, y]: Point): void {
  pen.lay(
    piece(
      LIMEWASH,
      ribbon(
        [
          [x + 54, y],
          [x + 10, y],
        ],
        () => 1.6,
      ),
    ),
    piece(QUINCE, disc([x, y], 21)),
    piece(RHUBARB, disc([x, y], 17.5)),
    piece(
      LIMEWASH,
      wheel(6, 0, (turn) => place(petal(13, 8, 0.62), { x, y, turn })),
    ),
    piece(
      DEEP_WATER,
      wheel(6, 0, (turn) =>
        place(petal(6, 3, 0.5), { x: polar(turn, 4.4)[0] + x, y: polar(turn, 4.4)[1] + y, turn }),
      ),
    ),
    piece(
      LIMEWASH,
      join(...[-40, 40, 0].map((lean) => place(petal(12, 5, 0.55), { x: x - 19, y, turn: 180 + lean }))),
    ),
  );
}

type Ring = readonly [count: number, length: number, width: number, ink: Ink];

function drawRosette(pen: Pen, [x, y]: Point, rings: readonly Ring[], heart: Ink): void {
  for (const [count, length, width, ink] of rings) {
    pen.lay(
      piece(
        ink,
        wheel(count, 0, (turn) => place(petal(length, width, 0.66), { x, y, turn })),
      ),
    );
  }
  pen.lay(piece(heart, disc([x, y], 5)));
}

/**
 * A cardoon head on the left mirror, open downwards. Only its right half is drawn, from the outside to the
 * middle, and the mirror makes the left.
 */
function drawHead(pen: Pen, y: number): void {
  drawTuft(pen, y + 2, { count: 8, length: 78, width: 8.4, spread: 50 }, QUINCE);
  drawTuft(pen, y + 2, { count: 7, length: 67, width: 8, spread: 42 }, RHUBARB);
  for (const [index, { rise, scale, places }] of BRACT_ROWS.entries()) {
    const ink = index % 2 ? SAMPHIRE : SEA_FOG;
    for (const x of places) {
      const lean = x / HALF_HEAD;
      layBract(pen, { x, y: y + rise + lean * lean * 7, turn: 180 - lean * 44, scale }, ink);
    }
  }
}

/** Half the width of the head, mm. */
const HALF_HEAD = 33;

/** From the tuft to the stalk. None but a middle bract may reach over the mirror, which would cut it. */
const BRACT_ROWS: readonly {
  /** mm towards the tuft. */
  readonly rise: number;
  readonly scale: number;
  /** mm from the mirror, from the outside in. */
  readonly places: readonly number[];
}[] = [
  { rise: 22, scale: 1.05, places: [27, 18, 9, 0] },
  { rise: 11, scale: 1.1, places: [32, 21.5, 11] },
  { rise: -2, scale: 1.15, places: [33, 22, 11, 0] },
  { rise: -15, scale: 1.1, places: [28.5, 20, 11] },
  { rise: -27, scale: 1, places: [20, 10, 0] },
];

const BRACT_EDGE: readonly Point[] = [
  [0, -17],
  [-7.5, -6],
  [-8.2, 5],
  [0, 11],
];
const BRACT: Shape = edged(BRACT_EDGE, BRACT_EDGE.map(([x, y]): Point => [-x, y]).reverse());
const BRACT_MARK: Shape = ribbon(
  curveThrough([
    [0, -12],
    [0, -4],
    [0, 4],
  ]),
  leafProfile(1.3, 0.3),
);

function layBract(pen: Pen, at: Placing & { scale: number }, ink: Ink): void {
  pen.lay(
    piece(DEEP_WATER, place(BRACT, { ...at, scale: at.scale * 1.18 })),
    piece(ink, place(BRACT, at)),
    piece(ink === SEA_FOG ? QUINCE : DEEP_WATER, place(BRACT_MARK, at)),
  );
}

interface Tuft {
  readonly count: number;
  readonly length: number;
  readonly width: number;
  /** Degrees from the mirror to the outermost floret. */
  readonly spread: number;
}

function drawTuft(pen: Pen, y: number, { count, length, width, spread }: Tuft, ink: Ink): void {
  for (let index = count - 1; index >= 0; index--) {
    const u = index / (count - 1);
    const turn = 90 - u * spread;
    pen.lay(piece(ink, place(petal(length * (1 - 0.14 * u * u), width, 0.8), { x: u * 12, y, turn })));
  }
}

function drawClasps(pen: Pen): void {
  for (const centre of [
    [WIDTH, 0],
    [0, HEIGHT],
  ] as const) {
    drawRosette(
      pen,
      centre,
      [
        [8, 24, 15, LIMEWASH],
        [8, 16, 8, QUINCE],
      ],
      DEEP_WATER,
    );
  }
}
