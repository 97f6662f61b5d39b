import type { RandomStream } from '../../src/field/index.ts';
import { modulo } from '../../src/repeat/index.ts';
import type { Point } from './geometry.ts';

/** A round part of a motif: centre from the motif's own origin, and radius, mm. */
export type Round = readonly [x: number, y: number, radius: number];

const PASSES = 700;
/** Motifs first look for this much more room than they need, and settle for a little air at the end. */
const ROOM_AT_FIRST = 1.5;
const AIR = 3;
/** From this much unrest on (it falls from 1 to 0) only motifs that touch push one another. */
const CALM = 0.5;

/** A motif to be spread. */
export interface Loose {
  /** Already turned. */
  readonly rounds: readonly Round[];
  /** Motifs of one kin keep apart, so that no colour gathers. */
  readonly kin: string;
}

/** A motif on its way. */
interface Body extends Loose {
  x: number;
  y: number;
  /** A heavier motif gives way less. */
  readonly weight: number;
  /** How far from its origin it can push, mm. */
  readonly reach: number;
  /** How far its kin would stand apart if they were alone and even, mm. */
  readonly kinDistance: number;
}

/**
 * Spreads motifs over a straight tile: each pushes away those that come too near, across the tile's edges
 * too, until the gaps are even.
 *
 * @param width  mm
 * @param height mm
 * @returns The motifs' origins, mm, in the order of `motifs`.
 */
export function scatter(
  motifs: readonly Loose[],
  width: number,
  height: number,
  random: RandomStream,
): Point[] {
  const bodies = motifs.map(({ rounds, kin }): Body => {
    const akin = motifs.filter((other) => other.kin === kin).length;
    return {
      rounds,
      kin,
      x: random.between(0, width),
      y: random.between(0, height),
      weight: rounds.reduce((sum, [, , radius]) => sum + radius * radius, 0),
      reach: AIR / 2 + Math.max(...rounds.map(([x, y, radius]) => Math.hypot(x, y) + radius * ROOM_AT_FIRST)),
      kinDistance: Math.sqrt((width * height) / akin),
    };
  });
  for (let pass = 0; pass < PASSES; pass++) {
    const unrest = 1 - pass / PASSES;
    for (let a = 0; a < bodies.length; a++) {
      for (let b = 0; b < a; b++) pushApart(bodies[a], bodies[b], unrest, width, height);
    }
  }
  return bodies.map(({ x, y }) => [modulo(x, width), modulo(y, height)]);
}

function pushApart(a: Body, b: Body, unrest: number, width: number, height: number): void {
  const [dx, dy] = [nearest(a.x - b.x, width), nearest(a.y - b.y, height)];
  const akin = unrest > CALM && a.kin === b.kin;
  if (!akin && Math.hypot(dx, dy) > a.reach + b.reach) return;
  let [pushX, pushY] = [0, 0];
  const push = (fromX: number, fromY: number, wanted: number, strength: number) => {
    const gap = Math.hypot(fromX, fromY) || 1e-6;
    if (gap >= wanted) return;
    pushX += ((wanted - gap) / gap) * fromX * strength;
    pushY += ((wanted - gap) / gap) * fromY * strength;
  };
  if (akin) push(dx, dy, a.kinDistance, 0.5 * (unrest - CALM));
  const room = 1 + (ROOM_AT_FIRST - 1) * unrest;
  for (const [ax, ay, ar] of a.rounds) {
    for (const [bx, by, br] of b.rounds) {
      push(nearest(dx + ax - bx, width), nearest(dy + ay - by, height), (ar + br) * room + AIR, 0.25);
    }
  }
  const share = b.weight / (a.weight + b.weight);
  a.x += pushX * share;
  a.y += pushY * share;
  b.x -= pushX * (1 - share);
  b.y -= pushY * (1 - share);
}

function nearest(difference: number, size: number): number {
  return modulo(difference + size / 2, size) - size / 2;
}
