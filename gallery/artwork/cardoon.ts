import { type Artwork, type Ink, type Pen, type Piece, piece } from './artwork.ts';
import { curveThrough } from './curve.ts';
import { disc, edged, leafProfile, petal, ribbon, stem, taper } from './cut.ts';
import { type LeafCut, lobedLeaf } from './foliage.ts';
import { join, type Placing, type Point, place, polar, type Shape } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, KELP, QUINCE, RHUBARB, SAMPHIRE, SEA_FOG } from './palette.ts';

const WIDTH = 260;
const HEIGHT = 320;
const SWING = 40;

export const CARDOON: Artwork = {
  name: 'cardoon',
  title: 'Cardoon',
  layout: 'drop:1/2',
  width: WIDTH,
  height: HEIGHT,
  ground: DEEP_WATER.hex,
  inks: [SEA_FOG, SAMPHIRE, KELP, RHUBARB, FLOWERPOT, QUINCE],
  draw(pen) {
    layLeaf(pen, LEAF_A, KELP, SAMPHIRE);
    layLeaf(pen, LEAF_B, SEA_FOG, SAMPHIRE);
    layLeaf(pen, LEAF_C, SAMPHIRE, KELP);
    drawTrail(pen);
    pen.lay(...head({ x: 188, y: 258, turn: 10, scale: 1.42 }));
    pen.lay(...sprig({ ...at(onTrail(66)), turn: -88, scale: 1.2 }));
    pen.lay(...sprig({ ...at(onTrail(256)), turn: -112, scale: 1, flip: true }));
    pen.lay(...sprig({ x: 148, y: 303, turn: 100, scale: 1.05, flip: true }));
    pen.lay(...bud({ x: 80, y: 58, turn: -22, scale: 1.35 }));
  },
};

const trailX = (y: number) => WIDTH / 2 + SWING * Math.sin((2 * Math.PI * y) / HEIGHT);
const at = ([x, y]: Point) => ({ x, y });
const onTrail = (y: number): Point => [trailX(y), y];

function drawTrail(pen: Pen): void {
  const points = Array.from({ length: 23 }, (_, i): Point => onTrail((i - 1) * 16));
  const ink = SAMPHIRE;
  pen.lay(piece(ink, ribbon(curveThrough(points), taper(3.4, 3.4), undefined, 200)));
  pen.lay(piece(ink, stem([onTrail(352), onTrail(334), [146, 306], [174, 284], [188, 252]], 3, 2.6)));
  pen.lay(piece(ink, stem([onTrail(132), onTrail(116), [142, 95], [104, 88], [80, 60]], 2.6, 2.2)));
}

const LEAF_A = lobedLeaf(
  [
    [90, 226],
    [60, 224],
    [34, 246],
    [14, 306],
  ],
  { count: 5, reach: [24, 42] },
);
const LEAF_B = lobedLeaf(
  [
    [133, 158],
    [92, 154],
    [32, 152],
    [-46, 112],
  ],
  { count: 6, reach: [46, 46] },
);
const LEAF_C = lobedLeaf(
  [
    [150, 140],
    [194, 113],
    [218, 72],
    [220, -6],
  ],
  { count: 5, reach: [40, 34] },
);

function layLeaf(pen: Pen, { stalk, left, right, veins }: LeafCut, leftInk: Ink, rightInk: Ink): void {
  pen.lay(piece(SAMPHIRE, stalk), piece(leftInk, left), piece(rightInk, right), piece(DEEP_WATER, veins));
}

/** A flower head standing up from the origin. */
function head(placing: Placing): Piece[] {
  const pieces: Piece[] = [];
  for (const [count, length, width, ink, spread] of [
    [13, 66, 7.4, FLOWERPOT, 116],
    [12, 58, 7, RHUBARB, 100],
    [9, 44, 5, FLOWERPOT, 74],
  ] as const) {
    pieces.push(piece(ink, fan(count, length, width, spread)));
  }
  for (const [row, y, half, count, size] of [
    [0, -34, 22, 5, 17],
    [1, -25, 30, 6, 18],
    [2, -14, 33, 6, 19],
    [3, -2, 29, 5, 19],
    [4, 8, 19, 4, 17],
  ] as const) {
    for (let index = 0; index < count; index++) {
      const u = (index / (count - 1)) * 2 - 1;
      const at = { x: u * half, y: y + Math.abs(u) * -3, turn: u * 34, scale: size / 18 };
      pieces.push(piece(DEEP_WATER, place(BRACT_GAP, at)));
      pieces.push(piece(row % 2 ? SAMPHIRE : SEA_FOG, place(BRACT, at)));
      pieces.push(piece(row % 2 ? KELP : QUINCE, place(BRACT_MARK, at)));
    }
  }
  return pieces.map(({ ink, shape }) => ({ ink, shape: place(shape, placing) }));
}

const BRACT: Shape = edged(
  [
    [0, -17],
    [-7.5, -6],
    [-8.2, 5],
    [0, 11],
  ],
  [
    [0, 11],
    [8.2, 5],
    [7.5, -6],
    [0, -17],
  ],
);
const BRACT_GAP: Shape = edged(
  [
    [0, -20],
    [-9, -7],
    [-9.6, 6],
    [0, 12],
  ],
  [
    [0, 12],
    [9.6, 6],
    [9, -7],
    [0, -20],
  ],
);
const BRACT_MARK: Shape = ribbon(
  curveThrough([
    [0, -12],
    [0, -4],
    [0, 4],
  ]),
  leafProfile(1.3, 0.3),
);

function fan(count: number, length: number, width: number, spread: number): Shape {
  const pieces: Shape[] = [];
  for (let index = 0; index < count; index++) {
    const u = (index / (count - 1)) * 2 - 1;
    pieces.push(
      place(petal(length * (1 - 0.12 * u * u), width, 0.8), {
        x: u * 10,
        y: -22,
        turn: -90 + (u * spread) / 2,
      }),
    );
  }
  return join(...pieces);
}

function bud(placing: Placing): Piece[] {
  const pieces: Piece[] = [];
  pieces.push(piece(QUINCE, join(...[-2, -1, 0, 1, 2].map((i) => disc(polar(-90 + i * 14, 40), 2.2)))));
  pieces.push(piece(FLOWERPOT, place(fan(8, 40, 6, 60), { y: 4 })));
  pieces.push(piece(RHUBARB, place(fan(7, 33, 6, 46), { y: 4 })));
  for (const [row, y, half, count] of [
    [0, -20, 10, 3],
    [1, -11, 15, 4],
    [2, -1, 14, 3],
    [3, 7, 7, 2],
  ] as const) {
    for (let index = 0; index < count; index++) {
      const u = (index / (count - 1)) * 2 - 1;
      const at = { x: u * half, y: y - Math.abs(u) * 2, turn: u * 30, scale: 0.8 };
      pieces.push(piece(DEEP_WATER, place(BRACT_GAP, at)));
      pieces.push(piece(row % 2 ? SEA_FOG : SAMPHIRE, place(BRACT, at)));
    }
  }
  return pieces.map(({ ink, shape }) => ({ ink, shape: place(shape, placing) }));
}

/** A small spray of seeds that fills the gaps, growing up from the origin. */
function sprig(placing: Placing): Piece[] {
  const line: Point[] = [
    [0, 2],
    [1, -14],
    [8, -27],
    [20, -35],
  ];
  const twigs: [Point, Point][] = [
    [
      [1, -10],
      [-9, -19],
    ],
    [
      [4, -20],
      [0, -33],
    ],
    [
      [3, -17],
      [16, -19],
    ],
    [
      [9, -28],
      [11, -41],
    ],
  ];
  const seeds: Point[] = [...twigs.map(([, end]) => end), [21, -35.5]];
  return [
    piece(SAMPHIRE, join(stem(line, 1.2, 0.8), ...twigs.map((twig) => stem(twig, 0.8, 0.6)))),
    piece(QUINCE, join(...seeds.map((seed) => disc(seed, 3.4)))),
  ].map(({ ink, shape }) => ({ ink, shape: place(shape, placing) }));
}
