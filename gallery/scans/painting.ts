import { type Canvas, createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import type { RandomStream } from '../../src/field/index.ts';
import type { Point } from '../artwork/geometry.ts';
import { drawStroke } from './brush.ts';

type Paint = readonly [number, number, number];

const GROUND: readonly Paint[] = [
  [226, 214, 190],
  [219, 206, 180],
  [231, 220, 199],
];
const LEAVES: readonly Paint[] = [
  [61, 92, 78],
  [88, 116, 84],
  [44, 74, 82],
  [124, 138, 92],
];
const BERRIES: readonly Paint[] = [
  [176, 66, 52],
  [201, 104, 62],
  [150, 48, 62],
];
const STEM: Paint = [96, 74, 58];

/** A ground that a swinging arm brushed. */
const SWEPT = { way: 0.55, curve: 0.5, reach: [3, 8], dryness: [0.1, 0.75], ragged: 0.11 } as const;

/**
 * A painting in gouache, as it leaves the table: sprigs with leaves and berries on a brushed ground. It was
 * never meant to stand in repeat.
 *
 * @param width  mm
 * @param height mm
 * @param scale  px per mm
 */
export function paintSprigs(width: number, height: number, scale: number, random: RandomStream): Canvas {
  const canvas = createCanvas(Math.round(width * scale), Math.round(height * scale));
  const context = canvas.getContext('2d');
  brushGround(
    context,
    GROUND,
    { width: canvas.width, height: canvas.height, brush: 9 * scale, ...SWEPT },
    random,
  );
  for (const [x, y] of standApart(width, height, 34, random)) {
    drawSprig({ context, scale, random }, [x * scale, y * scale], random.between(0, 2 * Math.PI));
  }
  return canvas;
}

const LIMEWASH: readonly Paint[] = [
  [116, 144, 152],
  [125, 153, 159],
  [107, 136, 146],
  [135, 161, 165],
];

/** A ground in one colour, in short dry dabs of a brush that cross every way, as a wall is limed: none stands out. */
export function paintLimewash(width: number, height: number, scale: number, random: RandomStream): Canvas {
  const canvas = createCanvas(Math.round(width * scale), Math.round(height * scale));
  const context = canvas.getContext('2d');
  const laps = {
    brush: 4 * scale,
    way: Math.PI,
    curve: 0.9,
    reach: [1.5, 4],
    dryness: [0.5, 0.95],
    ragged: 0.4,
  } as const;
  brushGround(context, LIMEWASH, { width: canvas.width, height: canvas.height, ...laps }, random);
  return canvas;
}

interface Ground {
  /** px, all. */
  readonly width: number;
  readonly height: number;
  readonly brush: number;
  /** rad: how far laps turn from their way, and how far each bends. */
  readonly way: number;
  readonly curve: number;
  /** How long laps are, in widths of the brush; how dry it is, 0..1; and what hairs may miss at either end, 0..1. */
  readonly reach: readonly [number, number];
  readonly dryness: readonly [number, number];
  readonly ragged: number;
}

function brushGround(
  context: SKRSContext2D,
  paints: readonly Paint[],
  { width, height, brush, way, curve, reach, dryness, ragged }: Ground,
  random: RandomStream,
): void {
  context.fillStyle = `rgb(${paints[0].join(',')})`;
  context.fillRect(0, 0, width, height);
  const count = Math.round((8 * width * height) / (brush * brush * 4));
  for (let lap = 0; lap < count; lap++) {
    const turn = random.between(-way, way) + (random.next() < 0.3 ? Math.PI / 2.4 : 0);
    const length = brush * random.between(...reach);
    const start: Point = [random.between(-length, width), random.between(-brush, height + brush)];
    drawStroke(
      context,
      {
        path: bend(start, turn, length, random.between(-curve, curve)),
        halfWidth: (along) => (brush / 2) * (0.94 + 0.06 * Math.sin(7 * along + lap)),
        paint: paints[Math.floor(random.next() * paints.length)],
        hairs: 70,
        dryness: random.between(...dryness),
        streaks: 9,
        ragged,
      },
      random,
    );
  }
}

/** A path that begins somewhere, goes one way and bends evenly, in steps of 3 px. */
function bend([x, y]: Point, turn: number, length: number, curve: number): Point[] {
  const steps = Math.max(4, Math.ceil(length / 3));
  const path: Point[] = [];
  let [atX, atY] = [x, y];
  for (let step = 0; step <= steps; step++) {
    path.push([atX, atY]);
    const heading = turn + (curve * step) / steps;
    atX += (Math.cos(heading) * length) / steps;
    atY += (Math.sin(heading) * length) / steps;
  }
  return path;
}

/** mm; each keeps its distance from those before, the paper's edges none: sprigs run off it. */
function standApart(width: number, height: number, distance: number, random: RandomStream): Point[] {
  const points: Point[] = [];
  for (let tries = 0; tries < 2000; tries++) {
    const [x, y] = [random.between(-6, width + 6), random.between(-6, height + 6)];
    if (points.every((point) => Math.hypot(point[0] - x, point[1] - y) > distance)) points.push([x, y]);
  }
  return points;
}

/** What is painted on, in px per mm, and the hand's chances. */
interface Easel {
  readonly context: SKRSContext2D;
  readonly scale: number;
  readonly random: RandomStream;
}

function drawSprig(easel: Easel, at: Point, turn: number): void {
  const { context, scale, random } = easel;
  const stem = bend(at, turn, random.between(24, 34) * scale, random.between(-1.1, 1.1));
  drawStroke(
    context,
    {
      path: stem,
      halfWidth: (along) => scale * (0.75 - 0.45 * along),
      paint: STEM,
      hairs: 9,
      dryness: 0.1,
      streaks: 12,
    },
    random,
  );
  const pairs = 5;
  for (let pair = 0; pair < pairs; pair++) {
    for (const side of [-1, 1]) {
      const along = (pair + 0.6 + 0.2 * side) / (pairs + 0.4);
      const step = Math.round(along * (stem.length - 2));
      const heading = Math.atan2(stem[step + 1][1] - stem[step][1], stem[step + 1][0] - stem[step][0]);
      const isBerry = random.next() < 0.2;
      if (isBerry) drawBerry(easel, stem[step], heading + side * 1.1);
      else drawLeaf(easel, stem[step], heading + side * random.between(0.55, 0.95));
    }
  }
  drawLeaf(easel, stem[stem.length - 1], turn + random.between(-0.3, 0.3));
}

function drawLeaf({ context, scale, random }: Easel, at: Point, turn: number): void {
  const length = random.between(9, 14) * scale;
  const fat = random.between(1.9, 3) * scale;
  drawStroke(
    context,
    {
      path: bend(at, turn, length, random.between(-0.5, 0.5)),
      halfWidth: (along) => fat * Math.sin(Math.PI * Math.min(1, along * 0.97 + 0.03) ** 0.8) + 0.2 * scale,
      paint: LEAVES[Math.floor(random.next() * LEAVES.length)],
      hairs: 52,
      dryness: random.between(0, 0.4),
      streaks: 16,
    },
    random,
  );
}

function drawBerry({ context, scale, random }: Easel, at: Point, turn: number): void {
  const reach = 5 * scale;
  const stalk = bend(at, turn, reach, random.between(-0.6, 0.6));
  drawStroke(
    context,
    { path: stalk, halfWidth: () => 0.3 * scale, paint: STEM, hairs: 4, dryness: 0, streaks: 8 },
    random,
  );
  const [x, y] = stalk[stalk.length - 1];
  const radius = random.between(1.7, 2.4) * scale;
  drawStroke(
    context,
    {
      path: bend([x - radius, y], 0, 2 * radius, 0.2),
      halfWidth: (along) => radius * Math.sqrt(Math.max(0, 1 - (2 * along - 1) ** 2)),
      paint: BERRIES[Math.floor(random.next() * BERRIES.length)],
      hairs: 40,
      dryness: 0,
      streaks: 20,
    },
    random,
  );
}
