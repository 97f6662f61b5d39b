import type { SKRSContext2D } from '@napi-rs/canvas';
import type { RandomStream } from '../../src/field/index.ts';
import type { Point } from '../artwork/geometry.ts';

/** A stroke of a flat or a pointed brush. Lengths in px of the canvas. */
export interface Stroke {
  /** The way of the brush, finely divided. */
  readonly path: readonly Point[];
  /** Half the width at a share of the way, 0..1. */
  readonly halfWidth: (along: number) => number;
  /** sRGB, 0..255. */
  readonly paint: readonly [number, number, number];
  /** How many hairs draw it. */
  readonly hairs: number;
  /** 0 for a brush full of paint to the end, 1 for one that runs dry halfway. */
  readonly dryness: number;
  /** How far hairs differ in lightness, of 255. */
  readonly streaks: number;
  /** The share of the way at either end that hairs may miss; next to nothing where absent. */
  readonly ragged?: number;
}

/** Draws a stroke hair by hair: each keeps its place across the brush, holds so much paint, and lifts where it is dry. */
export function drawStroke(context: SKRSContext2D, stroke: Stroke, random: RandomStream): void {
  const { path, halfWidth, paint, hairs, dryness, streaks, ragged = 0.03 } = stroke;
  const normals = normalsOf(path);
  context.lineCap = 'round';
  let streak = 0;
  for (let hair = 0; hair < hairs; hair++) {
    const across = ((hair + random.next()) / hairs) * 2 - 1;
    // Hairs that lie together carry much the same paint.
    streak = 0.7 * streak + 0.3 * streaks * 2 * random.between(-1, 1);
    const load = random.between(0.35, 1.6) * (1.35 - dryness);
    const colour = paint.map((value) => Math.max(0, Math.min(255, Math.round(value + streak))));
    context.strokeStyle = `rgba(${colour.join(',')},${random.between(0.35, 0.75)})`;
    context.lineWidth = Math.max(0.8, (3.6 * halfWidth(0.5)) / hairs);
    drawHair(context, { path, normals, halfWidth, across, load, lift: ragged * random.next() ** 2 }, random);
  }
}

interface Hair extends Pick<Stroke, 'path' | 'halfWidth'> {
  readonly normals: readonly Point[];
  /** -1..1. */
  readonly across: number;
  /** The share of the way after which it runs dry. */
  readonly load: number;
  /** The share of the way before it touches. */
  readonly lift: number;
}

function drawHair(
  context: SKRSContext2D,
  { path, normals, halfWidth, across, load, lift }: Hair,
  random: RandomStream,
): void {
  context.beginPath();
  let isDown = false;
  for (let step = 0; step < path.length; step++) {
    const along = step / (path.length - 1);
    const isDry = along > load && random.next() < Math.min(0.9, 3 * (along - load));
    if (along < lift || along > 1 - lift || isDry) {
      isDown = false;
      continue;
    }
    const out = across * halfWidth(along);
    const [x, y] = [path[step][0] + normals[step][0] * out, path[step][1] + normals[step][1] * out];
    if (isDown) context.lineTo(x, y);
    else context.moveTo(x, y);
    isDown = true;
  }
  context.stroke();
}

function normalsOf(path: readonly Point[]): Point[] {
  return path.map((_, at) => {
    const [before, after] = [path[Math.max(0, at - 1)], path[Math.min(path.length - 1, at + 1)]];
    const [dx, dy] = [after[0] - before[0], after[1] - before[1]];
    const length = Math.hypot(dx, dy) || 1;
    return [-dy / length, dx / length];
  });
}
