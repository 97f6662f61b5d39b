import { arrivalsAt, type Contours, contoursOver } from './contour.ts';
import type { Figure } from './figure.ts';
import type { Sides } from './foretell.ts';
import { limitOf } from './limit.ts';
import { Room } from './room.ts';
import type { Seam } from './seam.ts';

/** Lines that few outlines cross are pulled towards none broken: by this share of the usual weight. */
const USUAL_SHARE = 0.3;
/** The weight of one faint outline. */
const LEAST_WEIGHT = 20;
/** Fewer outlines at a mirror line, as at the tip of a heart that stands on it, tell nothing. */
const FEWEST_OUTLINES = 3;
/** Where outlines are lost inside more often than this, they have no direction to be judged by. */
const MOST_LOST = 0.6;

/** What outlines do at lines inside, and so whether they do more at a seam. */
export class Outlines {
  private readonly inside: readonly Contours[];
  private readonly positions: readonly number[];
  private readonly distinct: number;
  private readonly room = new Room();

  constructor(inside: readonly Sides[], positions: readonly number[], distinct: number) {
    this.inside = inside.map((sides) => contoursOver(sides, this.room));
    this.positions = positions;
    this.distinct = distinct;
  }

  weigh(seam: Seam, sides: Sides): Figure {
    const found = seam.how === 'mirrored' ? this.arriving(sides) : this.crossing(sides);
    const { count } = sides.before;
    return { ...found, measure: 'contour', pool: 'share', start: 0, length: count, scale: 1 };
  }

  private crossing(sides: Sides) {
    const weights = Float64Array.from(this.inside, ({ weight }) => weight).sort();
    const pull = USUAL_SHARE * weights[weights.length >> 1] + LEAST_WEIGHT;
    const shareOf = ({ broken, weight }: Contours) => broken / (weight + pull);
    return {
      ...limitOf(this.inside.map(shareOf), this.positions, this.distinct),
      value: shareOf(contoursOver(sides, this.room)),
    };
  }

  /**
   * At a mirror line outlines are held against a fixed angle: inside, none is bent by its reflection.
   * Outlines drawn square to the line came out at 0.2 to 0.6 by their curvature, cut ones at 1 to
   * 1.8; the rest of the limit is three standard errors of so few outlines, all from the test set.
   */
  private arriving({ before }: Sides) {
    const lost = this.lostInside();
    const { aslant, outlines } = arrivalsAt(before, this.room);
    const told = outlines >= FEWEST_OUTLINES && lost <= MOST_LOST;
    const limit = told ? 0.55 + 0.5 * lost + 1.5 / Math.sqrt(outlines) : Number.POSITIVE_INFINITY;
    return { inside: lost, limit, value: aslant };
  }

  private lostInside(): number {
    const broken = this.inside.reduce((sum, contours) => sum + contours.broken, 0);
    const weight = this.inside.reduce((sum, contours) => sum + contours.weight, 0);
    return weight > 0 ? broken / weight : 0;
  }
}
