import { type Canvas, createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import type { Frame } from '../../colour/frame.ts';
import { hexOfBytes } from '../../colour/hex.ts';
import type { Colourway, ShadeCard } from '../../ink/index.ts';
import { writePicture } from '../../picture/index.ts';
import { boxOf, MM_PER_INCH, type Repeat } from '../../repeat/index.ts';
import type { Paragraph } from './caption.ts';
import { drawBar } from './contact-sheet.ts';
import { CARD, LETTERS, MADDER, QUIET, RULE } from './inks.ts';
import { layWindow } from './lay-window.ts';
import { lettering } from './lettering.ts';
import { heightOf, writeParagraphs } from './paragraphs.ts';
import { GAP, MARGIN, ROW_GAP, SHEET_DPI } from './sheet-shape.ts';
import { smallOfFrame } from './small-picture.ts';

/** px */
const SIDE = 560;
const MOST_COLUMNS = 4;
const BAR_HEIGHT = 66;
const CHIP = { width: 56, height: 40, gap: 14, row: 54 } as const;
const NAME_HEIGHT = 32;
/** How often the repeat is seen, along its longer side. */
const REPEATS = 1.6;

/** One colourway as the sheet shows it. */
export interface ShownColourway {
  readonly colourway: Colourway;
  /** What is to be looked at, in words. */
  readonly doubts: readonly string[];
  /** RGBA of its window, `SIDE` px square. */
  readonly window: Uint8ClampedArray;
}

export interface ColourwaySheet {
  readonly title: string;
  readonly facts: string;
  readonly card: ShadeCard;
  readonly shown: readonly ShownColourway[];
  /** Pixels per mm of all windows. */
  readonly scale: number;
}

/** The scale at which a repeat is shown on a colourway sheet; nothing is enlarged. */
export function colourwayScale(repeat: Repeat, pixelsPerMm: number): number {
  const { width, height } = boxOf(repeat);
  return Math.min(pixelsPerMm, SIDE / (REPEATS * Math.max(width, height)));
}

/** A recoloured tile in repeat, as its window on the sheet; what is transparent lies on the colourway's ground. */
export async function colourwayWindow(
  tile: Frame,
  repeat: Repeat,
  scale: number,
  ground: readonly number[],
): Promise<Uint8ClampedArray> {
  return layWindow(await smallOfFrame(tile, repeat, scale, ground), SIDE, scale);
}

/** Draws all colourways side by side, each in repeat over its layout with its inks below, and writes it as PNG. */
export async function writeColourwaySheet(
  path: string,
  sheet: ColourwaySheet,
  overwrite?: boolean,
): Promise<{ readonly bytes: number }> {
  const canvas = drawSheet(sheet);
  const { width, height } = canvas;
  const { data } = canvas.getContext('2d').getImageData(0, 0, width, height);
  const pixels = new Uint8Array(data.buffer, data.byteOffset, data.length);
  return writePicture(path, { pixels, width, height, pixelsPerMm: SHEET_DPI / MM_PER_INCH }, { overwrite });
}

function drawSheet({ title, facts, card, shown, scale }: ColourwaySheet): Canvas {
  const columns = columnsFor(shown.length);
  const width = 2 * MARGIN + columns * SIDE + (columns - 1) * GAP;
  const room = width - 2 * MARGIN;
  const heading = headingWords(title, facts);
  const top = MARGIN + heightOf(heading, room) + BAR_HEIGHT;
  const chips = Math.ceil(card.inks.length / 2) * CHIP.row;
  const rows: ShownColourway[][] = [];
  for (let first = 0; first < shown.length; first += columns) rows.push(shown.slice(first, first + columns));
  const below = (row: readonly ShownColourway[]) =>
    Math.max(...row.map(({ doubts }) => heightOf(doubtWords(doubts), SIDE)));
  const rowHeight = (row: readonly ShownColourway[]) =>
    SIDE + 18 + NAME_HEIGHT * 1.3 + 12 + chips + below(row);
  const height =
    top + rows.reduce((sum, row) => sum + rowHeight(row), 0) + (rows.length - 1) * ROW_GAP + MARGIN;
  const canvas = createCanvas(width, Math.ceil(height));
  const context = canvas.getContext('2d');
  context.fillStyle = CARD;
  context.fillRect(0, 0, width, height);
  drawBar(context, scale, writeParagraphs(context, heading, MARGIN, MARGIN, room) + 14, '');
  let y = top;
  for (const row of rows) {
    row.forEach((one, column) => {
      drawColourway(context, one, card, MARGIN + column * (SIDE + GAP), y);
    });
    y += rowHeight(row) + ROW_GAP;
  }
  return canvas;
}

/** Rows that are as full as can be: four are two by two on no sheet, but one row. */
function columnsFor(count: number): number {
  const rows = Math.ceil(count / MOST_COLUMNS);
  return Math.ceil(count / rows);
}

function headingWords(title: string, facts: string): Paragraph[] {
  return [
    { text: title, height: 42, weight: 500, ink: LETTERS, most: 2 },
    { text: facts, height: 22, weight: 400, ink: QUIET },
  ];
}

function doubtWords(doubts: readonly string[]): Paragraph[] {
  return doubts.map((text) => ({ text, height: 20, weight: 400, ink: MADDER }));
}

function drawColourway(
  context: SKRSContext2D,
  { colourway, doubts, window }: ShownColourway,
  card: ShadeCard,
  x: number,
  y: number,
): void {
  const image = context.createImageData(SIDE, SIDE);
  image.data.set(window);
  context.putImageData(image, x, y);
  const name: Paragraph = { text: colourway.name, height: NAME_HEIGHT, weight: 500, ink: LETTERS, most: 1 };
  const chips = writeParagraphs(context, [name], x, y + SIDE + 18, SIDE) + 12;
  const perColumn = Math.ceil(card.inks.length / 2);
  card.inks.forEach((ink, at) => {
    const left = x + Math.floor(at / perColumn) * (SIDE / 2);
    drawChip(context, ink.name, colourway.colours[at], left, chips + (at % perColumn) * CHIP.row);
  });
  writeParagraphs(context, doubtWords(doubts), x, chips + perColumn * CHIP.row, SIDE);
}

function drawChip(
  context: SKRSContext2D,
  name: string,
  colour: Colourway['colours'][number],
  x: number,
  y: number,
): void {
  const { width, height, gap } = CHIP;
  const hex = hexOfBytes(colour);
  context.fillStyle = hex;
  context.fillRect(x, y, width, height);
  // A chip as pale as the sheet would have no edge.
  context.strokeStyle = RULE;
  context.lineWidth = 1;
  context.strokeRect(x + 0.5, y + 0.5, width - 1, height - 1);
  const words: Paragraph[] = [{ text: name, height: 20, weight: 400, ink: LETTERS, most: 1 }];
  writeParagraphs(context, words, x + width + gap, y - 5, SIDE / 2 - width - 2 * gap);
  context.font = lettering(400, 18);
  context.fillStyle = QUIET;
  context.fillText(hex, x + width + gap, y + height - 1);
}
