import { trimNumber } from '../../repeat/length.ts';
import type { ParcelFacts } from '../facts.ts';
import { HAIR, type Page, QUIET } from './page.ts';
import type { SheetPictures } from './pictures.ts';

const LABEL = { size: 7.5 } as const;

/** The repeat drawn small, with what there is to measure. @returns mm where it ends. */
export function drawRepeat(
  page: Page,
  x: number,
  top: number,
  { repeat: drawn }: SheetPictures,
  { repeat }: ParcelFacts,
): number {
  const { scale, first, width, height } = drawn;
  page.picture(drawn.png, x, top, width, height);
  page.within(x, top, width, height, () => drawTiles(page, x + first.x, top + first.y, drawn, repeat));
  page.box(x, top, width, height, { stroke: HAIR });
  const [left, upper] = [x + first.x, top + first.y];
  const [wide, high] = [repeat.widthMm * scale, repeat.heightMm * scale];
  const below = top + height + 3;
  page.rule(left, top + height + 0.6, left, below + 1.2, QUIET, 0.12);
  page.rule(left + wide, top + height + 0.6, left + wide, below + 1.2, QUIET, 0.12);
  page.arrow(left, below, left + wide, below);
  page.line(mm(repeat.widthMm), left + wide / 2, below + 4.2, LABEL, 'centre');
  const right = x + width + 3;
  page.rule(x + width + 0.6, upper, right + 1.2, upper, QUIET, 0.12);
  page.rule(x + width + 0.6, upper + high, right + 1.2, upper + high, QUIET, 0.12);
  page.arrow(right, upper, right, upper + high);
  turned(page, mm(repeat.heightMm), right + 3.6, upper + high / 2);
  return Math.max(below + 6.5, stepLine(page, x, below + 8.6, repeat));
}

/** Outlines of the copies: light over dark, so that they stand out from any print. */
function drawTiles(
  page: Page,
  left: number,
  upper: number,
  { scale }: SheetPictures['repeat'],
  { widthMm, heightMm, across, down }: ParcelFacts['repeat'],
): void {
  for (const [colour, line] of [
    ['#000000', 0.5],
    ['#ffffff', 0.25],
  ] as const) {
    for (let column = -4; column <= 4; column++)
      for (let row = -5; row <= 5; row++) {
        const x = left + (column * across.x + row * down.x) * scale;
        const y = upper + (column * across.y + row * down.y) * scale;
        outline(
          page,
          x,
          y,
          widthMm * scale,
          heightMm * scale,
          colour,
          column === 0 && row === 0 ? 2 * line : line,
        );
      }
  }
}

function outline(
  page: Page,
  x: number,
  y: number,
  width: number,
  height: number,
  colour: string,
  line: number,
) {
  page.rule(x, y, x + width, y, colour, line);
  page.rule(x, y + height, x + width, y + height, colour, line);
  page.rule(x, y, x, y + height, colour, line);
  page.rule(x + width, y, x + width, y + height, colour, line);
}

/** Where the next copy stands, where that is not simply beside or below. */
function stepLine(page: Page, x: number, y: number, { across, down }: ParcelFacts['repeat']): number {
  if (across.y === 0 && down.x === 0) return y - 4;
  const words =
    across.y === 0
      ? `next row: ${mm(down.x)} to the right, ${mm(down.y)} down`
      : `next column: ${mm(across.x)} to the right, ${mm(across.y)} down`;
  page.line(words, x, y, LABEL);
  return y + 4;
}

function turned(page: Page, words: string, x: number, y: number): void {
  const points = 72 / 25.4;
  page.doc.save();
  page.doc.rotate(-90, { origin: [x * points, y * points] });
  page.line(words, x, y, LABEL, 'centre');
  page.doc.restore();
}

function mm(value: number): string {
  return `${trimNumber(value, 2)} mm`;
}
