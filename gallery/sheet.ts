import { type Canvas, createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import { layoutWords } from '../src/page/view/open/layouts.ts';
import { boxOf, fitGrid, formatLayout, formatSize, type Repeat } from '../src/repeat/index.ts';
import type { Ink } from './artwork/artwork.ts';
import type { Picture } from './artwork/tile.ts';
import { layInRepeat } from './in-repeat.ts';
import { lettering } from './lettering.ts';

/** What a sheet shows. */
export interface SheetContent {
  /** Of the design. */
  readonly name: string;
  readonly repeat: Repeat;
  /** One finished tile; of a reflected layout the quarter or half. */
  readonly tile: Picture;
  readonly effect?: string;
  readonly preset?: string;
  /** How the samples' edges are cut: cloth is pinked against fraying (by default), paper and board are not. */
  readonly cut?: 'pinked' | 'straight';
  /** Of the artwork, before any effect. */
  readonly inks?: readonly Ink[];
}

const WIDTH = 1600;
const HEIGHT = 1160;
const MARGIN = 64;
/** The large sample shows the cloth in repeat, the small one from near by. */
const LARGE = { x: MARGIN, y: MARGIN, width: 1000, height: HEIGHT - 2 * MARGIN - 40 } as const;
const SMALL = { x: LARGE.x + LARGE.width + 56, y: MARGIN, width: 416, height: 416 } as const;
/** Repeats that the large sample shows at least, across or down, whichever are fewer. */
const REPEATS = 2;
/** Of the small sample, unless the tile is coarser. */
const NEAR_PIXELS_PER_MM = 6;

const CARD = '#f6f3ec';
const LETTERS = '#2d2b27';
const QUIET = '#8a857a';

/**
 * Draws the card that goes with a strike-off: the design in repeat, a piece of it from near by, both with a
 * bar of true length, and what it is.
 *
 * @returns 1600 x 1160 px, opaque.
 */
export function drawSheet(content: SheetContent): Picture {
  const canvas = createCanvas(WIDTH, HEIGHT);
  const context = canvas.getContext('2d');
  context.fillStyle = CARD;
  context.fillRect(0, 0, WIDTH, HEIGHT);
  drawLargeSample(context, content);
  drawSmallSample(context, content);
  drawCaption(context, content);
  const { data } = context.getImageData(0, 0, WIDTH, HEIGHT);
  return { pixels: new Uint8Array(data.buffer), width: WIDTH, height: HEIGHT };
}

function drawLargeSample(context: SKRSContext2D, { tile, repeat, cut }: SheetContent): void {
  const box = boxOf(repeat);
  const own = tile.width / repeat.width;
  const fewer = Math.max(LARGE.width / box.width, LARGE.height / box.height) / REPEATS;
  const pixelsPerMm = fittedDensity(repeat, Math.min(own, fewer));
  const { width, height } = LARGE;
  const sample = layInRepeat(tile, repeat, { x: 0, y: 0, pixelsPerMm, width, height });
  laySample(context, sample, LARGE, cut);
  drawBar(context, LARGE.x, LARGE.y + LARGE.height + 22, pixelsPerMm, 100);
}

function drawSmallSample(context: SKRSContext2D, { tile, repeat, cut }: SheetContent): void {
  const own = tile.width / repeat.width;
  const pixelsPerMm = fittedDensity(repeat, Math.min(own, NEAR_PIXELS_PER_MM));
  const { width, height } = SMALL;
  const middle = {
    x: repeat.width / 2 - width / pixelsPerMm / 2,
    y: repeat.height / 2 - height / pixelsPerMm / 2,
  };
  const sample = layInRepeat(tile, repeat, { ...middle, pixelsPerMm, width, height });
  laySample(context, sample, SMALL, cut);
  drawBar(context, SMALL.x, SMALL.y + SMALL.height + 22, pixelsPerMm, 10);
}

/** The density at which the samples are laid, whole pixels to a tile; the bars are drawn for it. */
function fittedDensity(repeat: Repeat, pixelsPerMm: number): number {
  return 1 / fitGrid(repeat, pixelsPerMm).mmPerPixelX;
}

interface Place {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One tooth of the pinking shears, px. */
const TOOTH = 8;

function laySample(context: SKRSContext2D, sample: Picture, place: Place, cut = 'pinked'): void {
  if (cut === 'pinked') layPinked(context, sample, place);
  else context.drawImage(canvasOf(sample), place.x, place.y);
}

/** A sample whose edges are cut with pinking shears, as mills cut them against fraying. */
function layPinked(context: SKRSContext2D, sample: Picture, place: Place): void {
  const corners = [
    [place.x, place.y],
    [place.x + place.width, place.y],
    [place.x + place.width, place.y + place.height],
    [place.x, place.y + place.height],
  ] as const;
  context.save();
  context.beginPath();
  corners.forEach(([x, y], side) => {
    const [nextX, nextY] = corners[(side + 1) % 4];
    const length = Math.hypot(nextX - x, nextY - y);
    const [alongX, alongY] = [(nextX - x) / length, (nextY - y) / length];
    for (let at = 0; at < length; at += TOOTH) {
      context.lineTo(x + alongX * at, y + alongY * at);
      const [half, depth] = [at + TOOTH / 2, TOOTH / 2];
      context.lineTo(x + alongX * half - alongY * depth, y + alongY * half + alongX * depth);
    }
  });
  context.closePath();
  context.clip();
  context.drawImage(canvasOf(sample), place.x, place.y);
  context.restore();
}

/** A picture on a canvas of its own. */
export function canvasOf({ pixels, width, height }: Picture): Canvas {
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  const image = context.createImageData(width, height);
  image.data.set(pixels);
  context.putImageData(image, 0, 0);
  return canvas;
}

/** A bar of a true length, halved, with its length in mm behind it. */
function drawBar(context: SKRSContext2D, x: number, y: number, pixelsPerMm: number, mm: number): void {
  const length = mm * pixelsPerMm;
  context.fillStyle = LETTERS;
  context.fillRect(x, y, length / 2, 6);
  context.strokeStyle = LETTERS;
  context.lineWidth = 1;
  context.strokeRect(x + 0.5, y + 0.5, length - 1, 5);
  context.font = lettering(400, 18);
  context.fillText(`${mm} mm`, x + length + 12, y + 9);
}

function drawCaption(context: SKRSContext2D, content: SheetContent): void {
  const { x } = SMALL;
  let y = SMALL.y + SMALL.height + 122;
  context.fillStyle = LETTERS;
  context.font = lettering(500, 46);
  context.fillText(content.name, x - 2, y);
  y += 22;
  for (const [label, text] of captionOf(content)) {
    y += 34;
    context.font = lettering(400, 20);
    context.fillStyle = QUIET;
    context.fillText(label, x, y);
    context.fillStyle = LETTERS;
    context.fillText(text, x + 92, y, SMALL.width - 92);
  }
  if (content.inks) drawInks(context, content.inks, x, y + 44);
}

/** The caption: label and text of each line. */
export function captionOf({ repeat, effect, preset }: SheetContent): [string, string][] {
  const lines: [string, string | undefined][] = [
    ['Layout', layoutWords(formatLayout(repeat.layout)).replace(/^a /, '')],
    ['Repeat', formatSize(repeat).replace(' x ', ' × ')],
    ['Effect', effect && inWords(effect)],
    ['Preset', preset && inWords(preset)],
  ];
  return lines.filter((line): line is [string, string] => line[1] !== undefined);
}

/** A name as it is said, not as it is typed. */
function inWords(name: string): string {
  return name.replaceAll('-', ' ');
}

const INKS_IN_A_ROW = 2;

function drawInks(context: SKRSContext2D, inks: readonly Ink[], x: number, y: number): void {
  inks.forEach(({ name, hex }, index) => {
    const left = x + (index % INKS_IN_A_ROW) * (SMALL.width / INKS_IN_A_ROW);
    const top = y + Math.floor(index / INKS_IN_A_ROW) * 42;
    context.fillStyle = hex;
    context.fillRect(left, top, 30, 30);
    // A pale ink would be lost on the card.
    context.strokeStyle = QUIET;
    context.lineWidth = 0.5;
    context.strokeRect(left, top, 30, 30);
    context.fillStyle = LETTERS;
    context.font = lettering(400, 18);
    context.fillText(name, left + 42, top + 21);
  });
}
