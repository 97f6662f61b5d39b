import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import { hexOfBytes } from '../../host/ink/inks-in-force.ts';
import type { Ink } from '../../ink/index.ts';
import { trimNumber } from '../../repeat/length.ts';
import { CARD, LETTERS, QUIET, RULE } from './inks.ts';
import { lettering } from './lettering.ts';

/** What a drawn card says of one ink. */
export interface DrawnInk {
  readonly ink: Ink;
  /** Of the area, 0..1. */
  readonly share: number;
  readonly cm2?: number;
}

/** What a drawn card says. */
export interface DrawnCard {
  readonly title: string;
  /** One line under it. */
  readonly facts: string;
  readonly inks: readonly DrawnInk[];
}

/** px */
const MARGIN = 72;
const SWATCH = { width: 340, height: 300 } as const;
const GAP = 36;
const WORDS = 128;
const HEADING = 150;
const BAR = 34;
const MOST_COLUMNS = 4;

/**
 * A shade card as a picture: the areas as a bar, then of each ink a swatch that is large enough to judge, lying on the
 * ground that it is printed on, with its name, colour and area.
 */
export function drawShadeCard({ title, facts, inks }: DrawnCard) {
  const columns = columnsFor(inks.length);
  const rows = Math.ceil(inks.length / columns);
  const across = Math.max(columns, 2);
  const width = 2 * MARGIN + across * SWATCH.width + (across - 1) * GAP;
  const height = MARGIN + HEADING + BAR + GAP + rows * (SWATCH.height + WORDS) + MARGIN / 2;
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  context.fillStyle = CARD;
  context.fillRect(0, 0, width, height);
  heading(context, title, facts, width - 2 * MARGIN);
  bar(context, inks, MARGIN + HEADING, width - 2 * MARGIN);
  inks.forEach((drawn, index) => {
    const x = MARGIN + (index % columns) * (SWATCH.width + GAP);
    const y = MARGIN + HEADING + BAR + GAP + Math.floor(index / columns) * (SWATCH.height + WORDS);
    swatch(context, drawn, inks[0].ink, x, y);
  });
  return { pixels: new Uint8Array(context.getImageData(0, 0, width, height).data), width, height };
}

/** As few rows as the widest card allows, filled as evenly as can be. */
function columnsFor(count: number): number {
  if (count <= MOST_COLUMNS) return Math.max(1, count);
  return Math.ceil(count / Math.ceil(count / MOST_COLUMNS));
}

function heading(context: SKRSContext2D, title: string, facts: string, room: number): void {
  context.textBaseline = 'alphabetic';
  context.fillStyle = LETTERS;
  context.font = lettering(500, 46);
  context.fillText(fitted(context, title, room), MARGIN, MARGIN + 38);
  context.fillStyle = QUIET;
  context.font = lettering(400, 24);
  context.fillText(fitted(context, facts, room), MARGIN, MARGIN + 84);
}

/** The areas side by side, in the order of the card. */
function bar(context: SKRSContext2D, inks: readonly DrawnInk[], y: number, width: number): void {
  const all = inks.reduce((sum, { share }) => sum + share, 0) || 1;
  let x = MARGIN;
  for (const { ink, share } of inks) {
    const part = (share / all) * width;
    context.fillStyle = hexOfBytes(ink.colour);
    context.fillRect(x, y, part, BAR);
    x += part;
  }
  context.strokeStyle = RULE;
  context.lineWidth = 1;
  context.strokeRect(MARGIN + 0.5, y + 0.5, width - 1, BAR - 1);
}

function swatch(
  context: SKRSContext2D,
  { ink, share, cm2 }: DrawnInk,
  first: Ink,
  x: number,
  y: number,
): void {
  const { width, height } = SWATCH;
  context.fillStyle = hexOfBytes(ink.colour);
  context.fillRect(x, y, width, height);
  // A strip of the ground along the foot shows the ink as it will be seen: a colour looks another one beside another.
  if (ink.kind === 'ink' && first.kind === 'ground') {
    context.fillStyle = hexOfBytes(first.colour);
    context.fillRect(x, y + height - 54, width, 54);
    context.fillStyle = hexOfBytes(ink.colour);
    for (let dot = 0; dot < 7; dot++) {
      context.beginPath();
      context.arc(x + (width * (dot + 0.5)) / 7, y + height - 27, 4 + 2 * dot, 0, 2 * Math.PI);
      context.fill();
    }
  }
  context.strokeStyle = RULE;
  context.lineWidth = 1;
  context.strokeRect(x + 0.5, y + 0.5, width - 1, height - 1);
  context.fillStyle = LETTERS;
  context.font = lettering(500, 28);
  context.fillText(fitted(context, ink.name, width), x, y + height + 40);
  context.fillStyle = QUIET;
  context.font = lettering(400, 22);
  const area = `${trimNumber(100 * share, 1)} %${cm2 === undefined ? '' : `  ${trimNumber(cm2, cm2 < 10 ? 2 : 1)} cm²`}`;
  context.fillText(hexOfBytes(ink.colour), x, y + height + 72);
  context.textAlign = 'right';
  context.fillText(area, x + width, y + height + 72);
  context.textAlign = 'left';
}

/** A text cut so that it fits, with dots where something is missing. */
function fitted(context: SKRSContext2D, text: string, room: number): string {
  if (context.measureText(text).width <= room) return text;
  const letters = [...text];
  while (letters.length > 0 && context.measureText(`${letters.join('')}…`).width > room) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}
