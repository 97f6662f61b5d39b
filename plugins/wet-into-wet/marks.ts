import { type Box, poissonPoints, type RandomStream, type Spot } from 'tenter';
import type { Values } from './parameters.ts';

/** Something poured for a while. */
export interface Mark {
  readonly spots: readonly Spot[];
  /** In reference steps: when it begins, and how long it goes on. */
  readonly from: number;
  readonly lasts: number;
  /** Water and paint in all, in films and washes, where a spot is full. */
  readonly water: number;
  readonly paint: number;
}

/** Marks of one kind. */
export interface Marks {
  /** Brush touches, drops or droplets. */
  readonly count: number;
  readonly marks: readonly Mark[];
}

export type Streams = (name: string) => RandomStream;

/** The share of marks that fall at a place, mm. */
export type Density = (x: number, y: number) => number;

/** More marks than this on one repeat are not let in: the tile is under water by then. */
const MOST_MARKS = 40_000;

/** Marks that together cover the repeat so many times over; more are not let in either. */
const MOST_COVER = 8;

/** Keeps count of how much of the repeat is covered. */
class Cover {
  private left: number;
  constructor({ width, height }: Box) {
    this.left = MOST_COVER * width * height;
  }

  /** Whether these spots may still be let in. */
  takes(spots: readonly Spot[]): boolean {
    if (this.left <= 0) return false;
    for (const { radius } of spots) this.left -= Math.PI * radius * radius;
    return true;
  }
}

/** The least distance of Poisson points so that about `count` of them stand on a box. */
function distanceFor(box: Box, count: number): number {
  return Math.sqrt((0.615 * box.width * box.height) / Math.max(count, 1e-9));
}

/** Points at random, about `perSquareDecimetre` of them; possibly none. */
function places(box: Box, perSquareDecimetre: number, random: RandomStream): [number, number][] {
  const wanted = Math.min(MOST_MARKS, (perSquareDecimetre * box.width * box.height) / 1e4);
  if (wanted <= 0) return [];
  if (wanted < 1) {
    return random.next() < wanted ? [[random.between(0, box.width), random.between(0, box.height)]] : [];
  }
  const { x, y } = poissonPoints(box, 0.62 * distanceFor(box, wanted), random);
  const share = wanted / x.length;
  const kept: [number, number][] = [];
  for (let k = 0; k < x.length; k++) if (random.next() < share) kept.push([x[k], y[k]]);
  return kept;
}

/** A factor with median 1, wider for more variety. */
function scatter(variety: number, random: RandomStream): number {
  return Math.exp(variety * 0.75 * Math.max(-2.2, Math.min(1.7, random.normal())));
}

/** How a brush is drawn: discs along a bent line, one after the other. */
interface Stroke {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** How many discs, each this share of the radius further on. */
  readonly discs: number;
  readonly stride: number;
  readonly angle: number;
  readonly bend: number;
  /** How much the discs differ in size and stray to the side. */
  readonly ragged: number;
  /** Whether it tapers towards its end. */
  readonly taper: number;
  /** Over what share of their radius the discs' edges fade. */
  readonly soft: number;
  readonly rough: number;
}

function drawStroke(stroke: Stroke, random: RandomStream): Spot[] {
  let { x, y, angle } = stroke;
  return Array.from({ length: stroke.discs }, (_, n) => {
    const taper = 1 - (stroke.taper * n) / stroke.discs;
    const radius =
      stroke.radius * taper * Math.exp(stroke.ragged * Math.max(-2, Math.min(1.4, random.normal())));
    const aside = stroke.radius * stroke.ragged * random.normal();
    const spot: Spot = {
      x: x - aside * Math.sin(angle),
      y: y + aside * Math.cos(angle),
      radius,
      soft: Math.max(0.8, stroke.soft * radius),
      rough: stroke.rough,
    };
    angle += random.normal() * stroke.bend;
    x += stroke.stride * stroke.radius * Math.cos(angle);
    y += stroke.stride * stroke.radius * Math.sin(angle);
    return spot;
  });
}

/** Broad brushloads of clean water, which seep for a long while. */
export function layFloods(values: Values, box: Box, streams: Streams): Marks {
  const random = streams('floods');
  if (values.floods <= 0) return { count: 0, marks: [] };
  const across = ((values.downhill + 90) * Math.PI) / 180;
  const at = places(box, 0.15 + 1.5 * values.floods, random);
  const cover = new Cover(box);
  let count = 0;
  const marks = at.flatMap(([x, y]): Mark[] => {
    const radius = (6 + 17 * random.next() ** 1.6) * (0.7 + 0.5 * values.floods);
    const stroke: Stroke = {
      x,
      y,
      radius,
      discs: 4 + random.below(20),
      stride: 0.85,
      angle: across + random.normal() * 0.8 + (random.next() < 0.5 ? Math.PI : 0),
      bend: 0.2 + 1.1 * random.next() ** 2,
      ragged: 0.32,
      taper: 0.4,
      soft: 1.1,
      rough: 0.34,
    };
    const from = random.between(5, 185);
    const water = 5.6 * random.between(0.4, 1.1);
    const spots = drawStroke(stroke, random);
    spots.push(...drips(spots, values, random));
    if (!cover.takes(spots)) return [];
    count++;
    return [{ spots, from, lasts: 95, water, paint: 0 }];
  });
  return { count, marks };
}

/** On a tilted sheet water has run down from some of its discs in tongues that narrow. */
function drips(spots: readonly Spot[], { tilt, downhill }: Values, random: RandomStream): Spot[] {
  return spots.flatMap(({ x, y, radius, rough }) => {
    const isDrip = random.next() < 0.55 * tilt;
    const width = Math.max(1.6, radius * random.between(0.16, 0.4));
    const length = tilt * random.between(8, 90);
    const angle = (downhill * Math.PI) / 180 + 0.1 * random.normal();
    if (!isDrip) return [];
    const stroke: Stroke = {
      x: x + 0.6 * radius * Math.cos(angle),
      y: y + 0.6 * radius * Math.sin(angle),
      radius: width,
      discs: Math.ceil(length / (0.8 * width)),
      stride: 0.8,
      angle,
      bend: 0.07,
      ragged: 0.18,
      taper: 0.5,
      soft: 1,
      rough,
    };
    return drawStroke(stroke, random);
  });
}

/** Drops of water that run back, most of them near the stated size; smaller ones fall beside and into them. */
export function layBlooms(values: Values, box: Box, streams: Streams, densityAt: Density): Marks {
  const random = streams('blooms');
  const at = places(box, 1.4 * values.blooms, random);
  const widest = 1.5 * Math.max(box.width, box.height);
  const cover = new Cover(box);
  let count = 0;
  const marks = at.flatMap(([x, y]) => {
    const isLet = random.next() < densityAt(x, y);
    const width = Math.min(widest, values.size * scatter(values.variety, random));
    const weak = values.variety * random.between(0, 0.8);
    const drop = [bloom(x, y, width, weak, random)];
    const beside = random.below(4);
    for (let n = 0; n < beside; n++) {
      const angle = random.between(0, 2 * Math.PI);
      const away = width * random.between(0.2, 0.75);
      const smaller = width * random.between(0.2, 0.7);
      drop.push(bloom(x + away * Math.cos(angle), y + away * Math.sin(angle), smaller, 1.3 * weak, random));
    }
    if (!isLet || !cover.takes(drop.flatMap(({ spots }) => spots))) return [];
    count++;
    return drop;
  });
  return { count, marks };
}

function bloom(x: number, y: number, width: number, weak: number, random: RandomStream): Mark {
  const stroke: Stroke = {
    x,
    y,
    radius: Math.max(1.2, 0.21 * width),
    discs: 1 + random.below(5),
    stride: 0.85,
    angle: random.between(0, 2 * Math.PI),
    bend: 0.9,
    ragged: 0.4,
    taper: 0.5,
    soft: 0.9,
    rough: 0.3,
  };
  const from = random.between(30, 240);
  return {
    spots: drawStroke(stroke, random),
    from,
    lasts: 70,
    water: Math.max(0.5, 1 - weak) * 6,
    paint: 0,
  };
}

/** Droplets thrown from the brush: dense here, absent there. */
export function laySpatter(values: Values, box: Box, streams: Streams, densityAt: Density): Marks {
  const random = streams('spatter');
  const at = places(box, 2.5 * values.spatter, random);
  let count = 0;
  const marks = at.flatMap(([x, y]): Mark[] => {
    const isThrown = random.next() < densityAt(x, y);
    const radius = 0.7 + 2.2 * random.next() ** 2.6;
    const water = random.between(1, 3.2);
    const from = random.between(70, 260);
    if (!isThrown) return [];
    count++;
    return [{ spots: [{ x, y, radius, soft: 0.8, rough: 0.12 }], from, lasts: 20, water, paint: 0 }];
  });
  return { count, marks };
}

/** Touches of a loaded brush: some short and fat, some drawn out. */
export function layCharges(values: Values, box: Box, streams: Streams, densityAt: Density): Marks {
  const random = streams('charges');
  const at = places(box, 1.6 * values.charges, random);
  const cover = new Cover(box);
  let count = 0;
  const marks = at.flatMap(([x, y]) => {
    const isLet = random.next() < densityAt(x, y);
    const stroke: Stroke = {
      x,
      y,
      radius: 2.6 * scatter(0.5 + 0.5 * values.variety, random),
      discs: 2 + random.below(9),
      stride: 0.8,
      angle: random.between(0, 2 * Math.PI),
      bend: 0.45,
      ragged: 0.4,
      taper: 0.5,
      soft: 1.2,
      rough: 0.3,
    };
    const strong = random.between(0.45, 1);
    const from = random.between(0, 60);
    const spots = drawStroke(stroke, random);
    if (!isLet || !cover.takes(spots)) return [];
    count++;
    return [{ spots, from, lasts: 30, water: 3.2, paint: 1.3 * strong }];
  });
  return { count, marks };
}
