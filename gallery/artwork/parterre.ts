import { type Artwork, type Ink, type Pen, type Piece, piece } from './artwork.ts';
import { bract } from './bract.ts';
import { bezier, stationsAlong } from './curve.ts';
import { disc, dots, leafProfile, outline, type Profile, petal, petals, ribbon, straight } from './cut.ts';
import { type LeafCut, lobedLeaf } from './foliage.ts';
import { join, type Point, path, place } from './geometry.ts';
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

/** The middle of the path between the two beds: upright where it meets the mirrors, so that it has no kink there. */
const CURVE = bezier(
  [WIDTH - LANE, 0],
  [WIDTH - LANE, HEIGHT * 0.52],
  [LANE, HEIGHT * 0.48],
  [LANE, HEIGHT],
  96,
);
/** The path goes on beyond each mirror as its own reflection does: anything else would show as a spur. */
const BEYOND = 8;
const PATH: readonly Point[] = [
  ...CURVE.slice(1, BEYOND)
    .map(([x, y]): Point => [x, -y])
    .reverse(),
  ...CURVE,
  ...CURVE.slice(-BEYOND, -1)
    .map(([x, y]): Point => [x, 2 * HEIGHT - y])
    .reverse(),
];

function drawBeds(pen: Pen): void {
  const [[, top], [, bottom]] = [PATH[0], PATH[PATH.length - 1]];
  pen.lay(
    piece(
      DEEP_WATER,
      outline(PATH, [
        [-1, bottom],
        [-1, top],
      ]),
    ),
  );
}

function drawPath(pen: Pen): void {
  layStrip(pen, LIMEWASH, 0, 6);
  layStrip(pen, RHUBARB, 9.1, 0.7);
  layStrip(pen, SEA_FOG, -9.1, 0.7);
  const beads = stationsAlong(CURVE, 38).map(({ point }) => disc(point, 2.5));
  pen.lay(...beads.map((bead, index): Piece => piece(index % 2 ? FLOWERPOT : DEEP_WATER, bead)));
}

/** A strip beside the path's middle line, `offset` mm to the left of it. */
function layStrip(pen: Pen, ink: Ink, offset: number, halfWidth: number): void {
  const left: Profile = () => halfWidth + offset;
  const right: Profile = () => halfWidth - offset;
  pen.lay(piece(ink, ribbon(PATH, left, right, 240)));
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

/** The bed round the upper left corner of the quarter. */
function drawFirstBed(pen: Pen): void {
  layLeaf(
    pen,
    lobedLeaf(path('36 22, 80 45, 124 46, 164 16'), { count: 6, reach: [15, 23] }),
    SEA_FOG,
    SAMPHIRE,
    DEEP_WATER,
  );
  layLeaf(
    pen,
    lobedLeaf(path('26 38, 58 66, 73 98, 57 142'), { count: 6, reach: [20, 15] }),
    SAMPHIRE,
    SEA_FOG,
    DEEP_WATER,
  );
  pen.lay(
    piece(QUINCE, ribbon(path('52 0, 152 0'), leafProfile(13.5, 0.42))),
    piece(RHUBARB, ribbon(path('58 0, 136 0'), leafProfile(8, 0.42))),
  );
  pen.lay(piece(LIMEWASH, dots('157 0 3.6, 166.5 0 2.6, 0 186 4.2, 0 197 3.2, 0 206 2.3')));
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

const UPRIGHT = [220, 166, 110, 56].map((y): Point => [WIDTH, y]);

/** The bed round the lower right corner of the quarter. */
function drawSecondBed(pen: Pen): void {
  layLeaf(
    pen,
    lobedLeaf(path('176 222, 156 190, 146 150, 170 104'), { count: 6, reach: [20, 18] }),
    DEEP_WATER,
    LIMEWASH,
    FLOWERPOT,
  );
  layLeaf(
    pen,
    lobedLeaf(path('166 236, 126 208, 84 206, 46 242'), { count: 6, reach: [17, 20] }),
    LIMEWASH,
    DEEP_WATER,
    FLOWERPOT,
  );
  // It lies on the mirror, so its halves are alike. A hairline along a mirror looks like a crease in it.
  const upright = lobedLeaf(UPRIGHT, { count: 7, reach: [24, 24], peak: 0.3, midrib: false });
  layLeaf(pen, upright, QUINCE, QUINCE, FLOWERPOT);
  pen.lay(piece(LIMEWASH, dots(`${WIDTH} 46 3.6, ${WIDTH} 36 2.6`)));
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
  const calyx = [-40, 40, 0].map((lean) => place(petal(12, 5, 0.55), { x: x - 19, y, turn: 180 + lean }));
  pen.lay(
    piece(LIMEWASH, join(straight([x + 54, y], [x + 10, y], 1.6), ...calyx)),
    piece(QUINCE, disc([x, y], 21)),
    piece(RHUBARB, disc([x, y], 17.5)),
    piece(LIMEWASH, petals([x, y], { count: 6, length: 13, width: 8 })),
    piece(DEEP_WATER, petals([x, y], { count: 6, length: 6, width: 3, fullness: 0.5, hole: 4.4 })),
  );
}

type Ring = readonly [count: number, length: number, width: number, ink: Ink];

function drawRosette(pen: Pen, centre: Point, rings: readonly Ring[], heart: Ink): void {
  for (const [count, length, width, ink] of rings) {
    pen.lay(piece(ink, petals(centre, { count, length, width, fullness: 0.66 })));
  }
  pen.lay(piece(heart, disc(centre, 5)));
}

/**
 * A cardoon head on the left mirror, open downwards. Only its right half is drawn, from the outside to the
 * middle, and the mirror makes the left.
 */
function drawHead(pen: Pen, y: number): void {
  drawTuft(pen, y + 2, { count: 8, length: 78, width: 8.4, spread: 50 }, QUINCE);
  drawTuft(pen, y + 2, { count: 7, length: 67, width: 8, spread: 42 }, RHUBARB);
  for (const [index, { rise, scale, places }] of BRACT_ROWS.entries()) {
    const inks = index % 2 ? ([SAMPHIRE, DEEP_WATER] as const) : ([SEA_FOG, QUINCE] as const);
    for (const x of places) {
      const lean = x / HALF_HEAD;
      const at = { x, y: y + rise + lean * lean * 7, turn: 180 - lean * 44, scale };
      pen.lay(...bract(at, DEEP_WATER, ...inks));
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
