import { type Box, poissonPoints, type RandomStream } from 'tenter';
import type { Values } from './parameters.ts';

/** Where fluid of one kind was let in: points along brush marks and drips, each with its delay. */
export interface Sources {
  /** mm, anywhere on the plane. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** mm by which the front lags behind the first, so that later and smaller ones stop earlier. */
  readonly start: readonly number[];
  /** How much it clears or carries, 0..1, per point. */
  readonly strength: readonly number[];
  /** How far the first front comes, mm. */
  readonly reach: number;
  /** How many brush marks or drops there are. */
  readonly count: number;
}

/** mm between the points of a brush mark. */
const SPACING = 0.9;

/** More marks than this on one repeat are not let in: the tile is under water by then. */
const MOST_MARKS = 40_000;

interface Mark {
  /** mm, centre and half width. */
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** Length of the brush mark, mm, and its direction. */
  readonly length: number;
  readonly angle: number;
  readonly bend: number;
  readonly strength: number;
  /** Length of the run downhill, mm. */
  readonly run: number;
}

class SourceList {
  readonly x: number[] = [];
  readonly y: number[] = [];
  readonly start: number[] = [];
  readonly strength: number[] = [];
  count = 0;
  constructor(
    readonly reach: number,
    private readonly random: RandomStream,
    private readonly downhill: number,
  ) {}

  add(mark: Mark): void {
    this.count++;
    const { random } = this;
    const radius = Math.min(mark.radius, this.reach);
    const late = this.reach - radius;
    const phase = random.between(0, 2 * Math.PI);
    const waves = (mark.length / radius) * random.between(0.6, 1.6);
    this.stroke(mark.x, mark.y, mark.angle, mark.bend, mark.length, (along) => {
      // A brush lifts at its ends and skips a little on the way.
      const lift = 0.4 * radius * (2 * Math.abs(along - 0.5)) ** 3;
      const skip = 0.12 * radius * (1 + Math.sin(phase + waves * along));
      return [late + lift + (mark.length > 0 ? skip : 0), mark.strength];
    });
    if (mark.run <= 0) return;
    const neck = random.between(0.3, 0.6);
    this.stroke(
      mark.x,
      mark.y,
      this.downhill + random.normal() * 0.12,
      random.normal() * 0.25,
      mark.run,
      (along) => {
        const narrow = neck * radius * (1 - 0.75 * along ** 3) * Math.min(1, 3 * along);
        return [late + narrow, mark.strength];
      },
    );
  }

  private stroke(
    x0: number,
    y0: number,
    angle: number,
    bend: number,
    length: number,
    give: (along: number) => [number, number],
  ): void {
    const steps = Math.max(1, Math.round(length / SPACING));
    const step = length / steps;
    let [x, y] = [x0, y0];
    let heading = angle - bend / 2;
    for (let k = 0; k <= steps; k++) {
      const [start, strength] = give(k / steps);
      this.x.push(x);
      this.y.push(y);
      this.start.push(start);
      this.strength.push(strength);
      heading += bend / steps + this.random.normal() * 0.05 * Math.sqrt(step);
      x += step * Math.cos(heading);
      y += step * Math.sin(heading);
    }
  }
}

/** The share of marks that fall at a place, mm. */
type Density = (x: number, y: number) => number;

type Streams = (name: string) => RandomStream;

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
  const { x, y } = poissonPoints(box, 0.8 * distanceFor(box, wanted), random);
  const share = wanted / x.length;
  const kept: [number, number][] = [];
  for (let k = 0; k < x.length; k++) if (random.next() < share) kept.push([x[k], y[k]]);
  return kept;
}

/** A factor with median 1, wider for more variety. */
function scatter(variety: number, random: RandomStream): number {
  return Math.exp(variety * 0.75 * Math.max(-2.2, Math.min(1.7, random.normal())));
}

/** Broad brushloads of water, 60 to 150 mm across. */
export function layFloods(values: Values, box: Box, streams: Streams): Sources {
  const random = streams('floods');
  const downhill = (values.downhill * Math.PI) / 180;
  const list = new SourceList(40, random, downhill);
  if (values.floods <= 0) return list;
  for (const [x, y] of places(box, 0.2 + 1.1 * values.floods, random)) {
    const radius = 9 + 31 * random.next() ** 1.2;
    list.add({
      x,
      y,
      radius,
      length: random.between(10, 110) * (0.6 + 0.6 * values.floods),
      angle: downhill + Math.PI / 2 + random.normal() * 0.7 + (random.next() < 0.5 ? Math.PI : 0),
      bend: random.normal() * 1.1,
      strength: random.between(0.25, 1),
      run: values.tilt * radius * random.between(0.5, 5),
    });
  }
  return list;
}

/** Drops of water that run back, most of them near the stated size; now and then a second one inside the first. */
export function layBlooms(values: Values, box: Box, streams: Streams, densityAt: Density): Sources {
  const random = streams('blooms');
  const downhill = (values.downhill * Math.PI) / 180;
  const list = new SourceList(values.size * 0.95, random, downhill);
  for (const [x, y] of places(box, 1.9 * values.blooms, random)) {
    const isLet = random.next() < densityAt(x, y);
    const radius = 0.42 * values.size * scatter(values.variety, random);
    const strength = 1 - values.variety * random.between(0, 0.75);
    if (!isLet) continue;
    list.add({
      x,
      y,
      radius,
      length: radius * random.between(0, 1.5),
      angle: random.between(0, 2 * Math.PI),
      bend: random.normal() * 1.4,
      strength,
      run: values.tilt * radius * random.between(0, 4),
    });
  }
  return list;
}

/** Droplets thrown from the brush: dense here, absent there. */
export function laySpatter(values: Values, box: Box, streams: Streams, densityAt: Density): Sources {
  const random = streams('spatter');
  const list = new SourceList(4.2, random, (values.downhill * Math.PI) / 180);
  for (const [x, y] of places(box, 2.5 * values.spatter, random)) {
    const isThrown = random.next() < densityAt(x, y);
    const radius = 0.8 + 3.4 * random.next() ** 2.6;
    const strength = random.between(0.2, 1);
    if (!isThrown) continue;
    list.add({
      x,
      y,
      radius,
      length: 0.4 * radius,
      angle: random.between(0, 6.28),
      bend: 0,
      strength,
      run: 0,
    });
  }
  return list;
}

/** Touches of a loaded brush: some short and fat, some drawn out. */
export function layCharges(values: Values, box: Box, streams: Streams): Sources {
  const random = streams('charges');
  const downhill = (values.downhill * Math.PI) / 180;
  const list = new SourceList(22, random, downhill);
  for (const [x, y] of places(box, values.charges, random)) {
    const radius = 8 * scatter(0.5 + 0.5 * values.variety, random);
    list.add({
      x,
      y,
      radius,
      length: radius * random.between(0.3, 5),
      angle: random.between(0, 2 * Math.PI),
      bend: random.normal() * 1.2,
      strength: random.between(0.45, 1),
      run: values.tilt * random.between(0, 60),
    });
  }
  return list;
}
