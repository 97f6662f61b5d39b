import { clothPattern, fitCanvas, type View } from '../../../collection/page/paint-cloth.ts';
import { boxOf, latticeOf, modulo, parseLayout } from '../../../repeat/index.ts';
import type { Part } from '../../words/look.ts';
import { type Cloth, repeatOf, type Shown } from './cloth.ts';
import { copiesIn } from './copies.ts';
import { drawFold } from './fold-shadow.ts';
import { Levels } from './levels.ts';
import { drawMarks } from './marks.ts';
import { seenOf } from './wanted-look.ts';

/** From so many device px per sample on, samples are shown as they are: threads have edges. */
const CRISP = 3;

/** A canvas and how it stands to the cloth. */
interface Sheet {
  readonly canvas: HTMLCanvasElement;
  readonly context: CanvasRenderingContext2D;
  /** Device px per CSS px, and per mm. */
  readonly ratio: number;
  readonly across: number;
  /** The view on whole device px, so that a cloth that is moved does not blur. */
  readonly view: View;
}

/** Draws a cloth on a canvas, and keeps what it laid out for that. */
export class Painter {
  readonly #periods = new WeakMap<Shown, Levels>();
  readonly #parts = new WeakMap<Shown, Levels>();

  paint(canvas: HTMLCanvasElement, cloth: Cloth): void {
    const sheet = sheetOf(canvas, cloth.view.value);
    const { context, ratio, view } = sheet;
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, canvas.width, canvas.height);
    const period = cloth.period.value;
    const part = cloth.part.value;
    if (period) this.#fill(sheet, period);
    if (part) this.#lay(sheet, part, cloth);
    const folded = cloth.folded.value;
    if (folded) this.#fold(sheet, folded);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    drawMarks(context, view, cloth);
    for (const overlay of cloth.overlays.value) {
      context.save();
      overlay(context, view);
      context.restore();
    }
  }

  #fill({ canvas, context, across, view }: Sheet, shown: Shown): void {
    const piece = levelsOf(this.#periods, shown, true).pieceFor(across);
    // Near the origin numbers are exact, however far the cloth was moved.
    const x = modulo(Math.round(-view.left * across), piece.canvas.width * piece.mmPerPixelX * across);
    const y = modulo(Math.round(-view.top * across), piece.canvas.height * piece.mmPerPixelY * across);
    context.imageSmoothingEnabled = piece.mmPerPixelX * across < CRISP;
    context.imageSmoothingQuality = 'low';
    context.fillStyle = clothPattern(context, piece, across, x, y);
    context.fillRect(0, 0, canvas.width, canvas.height);
  }

  /** A part on its place and on the same place of every period. */
  #lay({ canvas, context, across, view, ratio }: Sheet, shown: Shown, cloth: Cloth): void {
    const { part, layout } = shown.look;
    const piece = levelsOf(this.#parts, shown, false).pieceFor(across);
    context.imageSmoothingEnabled = piece.mmPerPixelX * across < CRISP;
    context.imageSmoothingQuality = 'low';
    const seen = seenOf(view, { width: canvas.width / ratio, height: canvas.height / ratio });
    const box = boxOfCloth(cloth);
    for (const { x, y } of copiesIn(seen, part, latticeOf(parseLayout(layout), box.width, box.height))) {
      context.drawImage(
        piece.canvas,
        settled((part.left + x - view.left) * across),
        settled((part.top + y - view.top) * across),
        settled(part.width * across),
        settled(part.height * across),
      );
    }
  }

  #fold(sheet: Sheet, { period, at }: { period: Shown; at: number }): void {
    const { canvas, context, ratio } = sheet;
    const edge = Math.round(canvas.width * at);
    context.save();
    context.beginPath();
    context.rect(0, 0, edge, canvas.height);
    context.clip();
    context.clearRect(0, 0, edge, canvas.height);
    this.#fill(sheet, period);
    context.restore();
    drawFold(context, edge, canvas.height, ratio);
  }
}

function sheetOf(canvas: HTMLCanvasElement, view: View): Sheet {
  fitCanvas(canvas);
  const ratio = canvas.width / Math.max(1, canvas.clientWidth);
  const across = view.scale * ratio;
  return {
    canvas,
    context: canvas.getContext('2d')!,
    ratio,
    across,
    view: {
      left: Math.round(view.left * across) / across,
      top: Math.round(view.top * across) / across,
      scale: view.scale,
    },
  };
}

function levelsOf(kept: WeakMap<Shown, Levels>, shown: Shown, isLaid: boolean): Levels {
  const known = kept.get(shown) ?? new Levels(shown, isLaid);
  kept.set(shown, known);
  return known;
}

/** The box that repeats by translation alone: the period's own where there is one. */
function boxOfCloth(cloth: Cloth): Pick<Part, 'width' | 'height'> {
  return cloth.period.value?.look.part ?? boxOf(repeatOf(cloth.repeat.value));
}

/** A hair off a whole pixel is rounding. */
function settled(value: number): number {
  const whole = Math.round(value);
  return Math.abs(value - whole) < 1e-3 ? whole : value;
}
