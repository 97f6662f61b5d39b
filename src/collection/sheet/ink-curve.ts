import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import { CARD, LETTERS, MADDER, QUIET, RULE } from './inks.ts';
import { lettering } from './lettering.ts';

/** What a number of inks comes to, CIEDE2000. */
export interface DrawnPoint {
  readonly count: number;
  readonly error: { readonly mean: number; readonly p95: number };
}

/** px */
const SIZE = { width: 1200, height: 760 } as const;
const PLOT = { left: 130, right: 1130, top: 190, bottom: 640 } as const;

/** How far mixes are from a picture, by the number of inks; the suggested number is marked. */
export function drawInkCurve(title: string, facts: string, points: readonly DrawnPoint[], chosen: number) {
  const canvas = createCanvas(SIZE.width, SIZE.height);
  const context = canvas.getContext('2d');
  context.fillStyle = CARD;
  context.fillRect(0, 0, SIZE.width, SIZE.height);
  context.fillStyle = LETTERS;
  context.font = lettering(500, 40);
  context.fillText(title, 72, 86);
  context.fillStyle = QUIET;
  context.font = lettering(400, 22);
  context.fillText(facts, 72, 128);
  const most = Math.max(1, ...points.map(({ error }) => error.p95));
  const step = stepFor(most);
  const top = Math.ceil(most / step) * step;
  const least = points[0]?.count ?? 2;
  const last = Math.max(points[points.length - 1]?.count ?? 3, least + 1);
  const x = (count: number) => PLOT.left + ((count - least) / (last - least)) * (PLOT.right - PLOT.left);
  const y = (error: number) => PLOT.bottom - (error / top) * (PLOT.bottom - PLOT.top);
  rules(context, top, step, y);
  context.textAlign = 'center';
  for (let count = least; count <= last; count++) context.fillText(String(count), x(count), PLOT.bottom + 34);
  context.fillText('colours of the card', (PLOT.left + PLOT.right) / 2, PLOT.bottom + 76);
  context.textAlign = 'left';
  if (points.some(({ count }) => count === chosen)) mark(context, x(chosen));
  line(context, points, x, y, 'p95', QUIET, '95 of 100 pixels, at most');
  line(context, points, x, y, 'mean', LETTERS, 'on average');
  const pixels = new Uint8Array(context.getImageData(0, 0, SIZE.width, SIZE.height).data);
  return { pixels, ...SIZE };
}

function stepFor(most: number): number {
  return [0.5, 1, 2, 5, 10, 20].find((step) => most / step <= 6) ?? 50;
}

function rules(context: SKRSContext2D, top: number, step: number, y: (error: number) => number): void {
  context.strokeStyle = RULE;
  context.lineWidth = 1;
  context.textAlign = 'right';
  for (let error = 0; error <= top + 1e-9; error += step) {
    const at = Math.round(y(error)) + 0.5;
    context.beginPath();
    context.moveTo(PLOT.left, at);
    context.lineTo(PLOT.right, at);
    context.stroke();
    context.fillText(String(error), PLOT.left - 18, at + 8);
  }
  context.textAlign = 'left';
}

function mark(context: SKRSContext2D, x: number): void {
  context.strokeStyle = MADDER;
  context.setLineDash([6, 6]);
  context.lineWidth = 2;
  context.beginPath();
  context.moveTo(x, PLOT.top);
  context.lineTo(x, PLOT.bottom);
  context.stroke();
  context.setLineDash([]);
}

function line(
  context: SKRSContext2D,
  points: readonly DrawnPoint[],
  x: (count: number) => number,
  y: (error: number) => number,
  which: 'mean' | 'p95',
  colour: string,
  words: string,
): void {
  context.strokeStyle = colour;
  context.fillStyle = colour;
  context.lineWidth = 3;
  context.beginPath();
  for (const { count, error } of points) context.lineTo(x(count), y(error[which]));
  context.stroke();
  for (const { count, error } of points) {
    context.beginPath();
    context.arc(x(count), y(error[which]), 6, 0, 2 * Math.PI);
    context.fill();
  }
  // Beside the second point, where the lines have parted.
  const at = points[Math.min(1, points.length - 1)];
  if (at) context.fillText(words, x(at.count) + 16, y(at.error[which]) - 14);
}
