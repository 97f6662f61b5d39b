import type { View } from '../../../collection/page/paint-cloth.ts';
import { isReflected, type Layout, latticeOf, modulo, reflectionAt } from '../../../repeat/index.ts';
import { type Cloth, repeatOf } from './cloth.ts';
import { type Copy, copiesIn } from './copies.ts';
import { seenOf } from './wanted-look.ts';

/** Seen on light and dark cloth alike: a dark line within a light one. */
const LIGHT = '#fffdf8';
const DARK = '#1d1b18';
/** Tiles smaller than this, CSS px, would be covered by their lines. */
const LEAST_TILE = 8;
/** Sides of the corner mark, CSS px: of unequal length, so that a turn is not taken for a reflection. */
const CORNER = { along: 18, down: 9, inset: 4 };

/** A tile on the screen, CSS px. */
interface TileBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly flipX: boolean;
  readonly flipY: boolean;
}

/** Draws the tile's boundary and the seams over the cloth, in CSS px. */
export function drawMarks(context: CanvasRenderingContext2D, view: View, cloth: Cloth): void {
  const { edge, seams } = cloth.marks.value;
  if (!edge && !seams) return;
  const { layout, width, height } = repeatOf(cloth.repeat.value);
  if (Math.min(width, height) * view.scale < LEAST_TILE) return;
  const seen = seenOf(view, cloth.room.value);
  const tile = { left: 0, top: 0, width, height };
  const lattice = latticeOf(layout, width, height);
  const boxes = copiesIn(seen, tile, lattice).map((copy) => tileBox(copy, layout, view, width, height));
  context.save();
  if (edge) strokeEdges(context, boxes);
  if (seams) strokeSeams(context, boxes);
  if (edge && isReflected(layout)) for (const box of boxes) fillCorner(context, box);
  context.restore();
}

function tileBox(copy: Copy, layout: Layout, view: View, width: number, height: number): TileBox {
  return {
    left: onPixel((copy.x - view.left) * view.scale),
    top: onPixel((copy.y - view.top) * view.scale),
    width: width * view.scale,
    height: height * view.scale,
    ...reflectionAt(layout, modulo(copy.column, 2), modulo(copy.row, 2)),
  };
}

/** The middle of a pixel, so that a thin line is one. */
function onPixel(place: number): number {
  return Math.floor(place + 1e-6) + 0.5;
}

function strokeEdges(context: CanvasRenderingContext2D, boxes: readonly TileBox[]): void {
  const path = linesOf(boxes);
  stroke(context, path, LIGHT, 4);
  stroke(context, path, DARK, 1.5);
}

/** Thin and dashed; what shows between the dashes is light, so that one of the two is always seen. */
function strokeSeams(context: CanvasRenderingContext2D, boxes: readonly TileBox[]): void {
  const path = linesOf(boxes);
  stroke(context, path, LIGHT, 1);
  context.setLineDash([5, 5]);
  stroke(context, path, DARK, 1);
  context.setLineDash([]);
}

/** The left and the upper side of every tile: the others are those of its neighbours. */
function linesOf(boxes: readonly TileBox[]): Path2D {
  const path = new Path2D();
  for (const { left, top, width, height } of boxes) {
    path.moveTo(left, top + height);
    path.lineTo(left, top);
    path.lineTo(left + width, top);
  }
  return path;
}

function stroke(context: CanvasRenderingContext2D, path: Path2D, colour: string, width: number): void {
  context.strokeStyle = colour;
  context.lineWidth = width;
  context.stroke(path);
}

/** In the corner that is the upper left one of the artwork, with its long side along the artwork's top. */
function fillCorner(context: CanvasRenderingContext2D, box: TileBox): void {
  const { along, down, inset } = CORNER;
  const shrink = Math.min(1, Math.min(box.width, box.height) / (2.5 * along));
  const [x, toX] = box.flipX ? [box.left + box.width, -shrink] : [box.left, shrink];
  const [y, toY] = box.flipY ? [box.top + box.height, -shrink] : [box.top, shrink];
  context.beginPath();
  context.moveTo(x + inset * toX, y + inset * toY);
  context.lineTo(x + (inset + along) * toX, y + inset * toY);
  context.lineTo(x + inset * toX, y + (inset + down) * toY);
  context.closePath();
  context.fillStyle = DARK;
  context.strokeStyle = LIGHT;
  context.lineWidth = 2;
  context.stroke();
  context.fill();
}
