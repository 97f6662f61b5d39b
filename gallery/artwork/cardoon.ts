import { type Artwork, type Ink, type Pen, type Piece, piece, placeAll } from './artwork.ts';
import { bract } from './bract.ts';
import { curveThrough } from './curve.ts';
import { disc, petal, ribbon, stem, taper } from './cut.ts';
import { type LeafCut, lobedLeaf } from './foliage.ts';
import { join, type Placing, type Point, path, place, type Shape } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, KELP, QUINCE, RHUBARB, SAMPHIRE, SEA_FOG } from './palette.ts';

const WIDTH = 260;
const HEIGHT = 320;
/** How far the trail swings to either side, mm. */
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
    layLeaf(pen, DROOPING, KELP, SAMPHIRE);
    layLeaf(pen, LYING, SEA_FOG, SAMPHIRE);
    layLeaf(pen, RISING, SAMPHIRE, KELP);
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
  pen.lay(piece(SAMPHIRE, ribbon(curveThrough(points), taper(3.4, 3.4), undefined, 200)));
  pen.lay(piece(SAMPHIRE, stem([onTrail(352), onTrail(334), [146, 306], [174, 284], [188, 252]], 3, 2.6)));
  pen.lay(piece(SAMPHIRE, stem([onTrail(132), onTrail(116), [142, 95], [104, 88], [80, 60]], 2.6, 2.2)));
}

const DROOPING = lobedLeaf(path('90 226, 60 224, 34 246, 14 306'), { count: 5, reach: [24, 42] });
const LYING = lobedLeaf(path('133 158, 92 154, 32 152, -46 112'), { count: 6, reach: [46, 46] });
const RISING = lobedLeaf(path('143 145, 194 113, 218 72, 220 -6'), { count: 5, reach: [40, 34] });

function layLeaf(pen: Pen, { stalk, left, right, veins }: LeafCut, leftInk: Ink, rightInk: Ink): void {
  pen.lay(piece(SAMPHIRE, stalk), piece(leftInk, left), piece(rightInk, right), piece(DEEP_WATER, veins));
}

/** A flower head that stands on the origin. */
function head(placing: Placing): Piece[] {
  return placeAll(
    [
      piece(FLOWERPOT, tuft(13, 66, 7.4, 116)),
      piece(RHUBARB, tuft(12, 58, 7, 100)),
      piece(FLOWERPOT, tuft(9, 44, 5, 74)),
      ...clad([
        { y: -34, half: 22, count: 5, scale: 0.94, ink: SEA_FOG, mark: QUINCE },
        { y: -25, half: 30, count: 6, scale: 1, ink: SAMPHIRE, mark: KELP },
        { y: -14, half: 33, count: 6, scale: 1.06, ink: SEA_FOG, mark: QUINCE },
        { y: -2, half: 29, count: 5, scale: 1.06, ink: SAMPHIRE, mark: KELP },
        { y: 8, half: 19, count: 4, scale: 0.94, ink: SEA_FOG, mark: QUINCE },
      ]),
    ],
    placing,
  );
}

/** A head that has only begun to open. */
function bud(placing: Placing): Piece[] {
  return placeAll(
    [
      piece(FLOWERPOT, place(tuft(8, 40, 6, 60), { y: 4 })),
      piece(RHUBARB, place(tuft(7, 33, 6, 46), { y: 4 })),
      ...clad([
        { y: -20, half: 10, count: 3, scale: 0.8, ink: SAMPHIRE, mark: SAMPHIRE },
        { y: -11, half: 15, count: 4, scale: 0.8, ink: SEA_FOG, mark: SEA_FOG },
        { y: -1, half: 14, count: 3, scale: 0.8, ink: SAMPHIRE, mark: SAMPHIRE },
        { y: 7, half: 7, count: 2, scale: 0.8, ink: SEA_FOG, mark: SEA_FOG },
      ]),
    ],
    placing,
  );
}

interface Row {
  readonly y: number;
  /** Half the width of the row, mm. */
  readonly half: number;
  readonly count: number;
  readonly scale: number;
  readonly ink: Ink;
  readonly mark: Ink;
}

/** Rows of bracts from the tuft down, each lying over the one above it. */
function clad(rows: readonly Row[]): Piece[] {
  return rows.flatMap(({ y, half, count, scale, ink, mark }) =>
    Array.from({ length: count }, (_, index) => {
      const u = (index / (count - 1)) * 2 - 1;
      const at = { x: u * half, y: y - Math.abs(u) * 2.5, turn: u * 33, scale };
      return bract(at, DEEP_WATER, ink, mark);
    }).flat(),
  );
}

/** Florets that fan out upwards over `spread` degrees. */
function tuft(count: number, length: number, width: number, spread: number): Shape {
  const florets = Array.from({ length: count }, (_, index) => {
    const u = (index / (count - 1)) * 2 - 1;
    const at = { x: u * 10, y: -22, turn: -90 + (u * spread) / 2 };
    return place(petal(length * (1 - 0.12 * u * u), width, 0.8), at);
  });
  return join(...florets);
}

/** A small spray of seeds that fills the gaps, growing up from the origin. */
function sprig(placing: Placing): Piece[] {
  const line: Point[] = path('0 2, 1 -14, 8 -27, 20 -35');
  const twigs: Point[][] = [
    path('1 -10, -9 -19'),
    path('4 -20, 0 -33'),
    path('3 -17, 16 -19'),
    path('9 -28, 11 -41'),
  ];
  const seeds: Point[] = [...twigs.map((twig) => twig[1]), [21, -35.5]];
  return placeAll(
    [
      piece(SAMPHIRE, join(stem(line, 1.2, 0.8), ...twigs.map((twig) => stem(twig, 0.8, 0.6)))),
      piece(QUINCE, join(...seeds.map((seed) => disc(seed, 3.4)))),
    ],
    placing,
  );
}
