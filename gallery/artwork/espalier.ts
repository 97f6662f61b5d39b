import { type Artwork, type Ink, type Pen, type Piece, piece, placeAll } from './artwork.ts';
import { bird } from './bird.ts';
import { curveThrough, type Station, walkAlong } from './curve.ts';
import { disc, edged, leafProfile, petal, ribbon, straight, taper } from './cut.ts';
import { join, type Placing, type Point, path, place, type Shape } from './geometry.ts';
import { DEEP_WATER, FLOWERPOT, KELP, LIMEWASH, QUINCE, RHUBARB, SAMPHIRE } from './palette.ts';
import { blossom, bud, leaves, pear } from './pear-spurs.ts';

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
    pen.lay(piece(DEEP_WATER, straight([0, -10], [0, HEIGHT + 10], 4.4)));
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

/** An arm, from the trunk to its tip, mm from where it leaves. */
const ARM = path('0 16, 9 0, 34 -8, 78 -9, 120 -7, 145 -15, 153 -41');
/** Where things grow on an arm, 0..1 of its length. */
const STATIONS = [0.23, 0.37, 0.5, 0.63, 0.77, 0.92];

function drawArm(pen: Pen, tier: Tier): void {
  const line = curveThrough(ARM.map(([x, rise]): Point => [x, tier.y + rise]));
  const walk = walkAlong(line);
  pen.lay(piece(DEEP_WATER, ribbon(line, taper(3.2, 1.1), undefined, 160)));
  pen.lay(...STATIONS.flatMap((t, index) => growthAt(tier, index, walk(t))));
}

/** What grows at a station: along the arm it stands or hangs, at the arm's tip it spreads with it. */
function growthAt({ above, below, lean }: Tier, index: number, { point, along }: Station): Piece[] {
  const slope = (Math.atan2(along[1], along[0]) * 180) / Math.PI;
  const atTip = index === STATIONS.length - 1;
  const at = { x: point[0], y: point[1] };
  return [
    ...growth(
      below[index],
      { ...at, turn: atTip ? slope + 58 : 180 + slope * 0.4 },
      index % 2 ? -lean : lean,
    ),
    ...growth(above[index], { ...at, turn: atTip ? slope - 30 : slope * 0.4 }, lean),
  ];
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

/** A moth whose body lies on the right mirror; only its left wings are drawn. */
function layMoth(pen: Pen, [x, y]: Point): void {
  const upper = edged(path('-1 0, -8 -14, -20 -20'), path('-20 -20, -20 -8, -11 1, -1 2'));
  const lower = edged(path('-1 1, -12 4, -14 12'), path('-14 12, -9 18, -3 14, -1 5'));
  const marks = join(disc([-13.5, -10.5], 2.1), disc([-9, 10.5], 1.6));
  for (const [ink, shape] of [
    [RHUBARB, lower],
    [QUINCE, upper],
    [DEEP_WATER, marks],
  ] as [Ink, Shape][]) {
    pen.lay(piece(ink, place(shape, { x, y })));
  }
  const feeler = ribbon(curveThrough(path('0 -7, -2.5 -14, -7 -18')), taper(0.6, 0.35));
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
