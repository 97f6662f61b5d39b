import { formatSize, trimNumber } from '../../repeat/length.ts';
import type { FileFacts, ParcelFacts } from '../facts.ts';
import { stepTitle } from '../recipe-words.ts';
import { layoutWords, pixelWords, profileWords } from '../words.ts';
import { HAIR, leading, Page, type Paper, QUIET } from './page.ts';
import type { SheetPictures } from './pictures.ts';
import { drawRepeat } from './repeat-drawing.ts';
import { drawSwatch } from './swatch.ts';

const BODY = { size: 9 } as const;
const SMALL = { size: 7.5, colour: QUIET } as const;
const HEADING = { size: 9, weight: 500 } as const;
/** Letters of a SHA-256 that are shown. */
const BEGINNING = 16;
/** mm kept free for the foot of a page. */
const FOOT = 12;

/** Draws the strike-off sheet. @returns The PDF. */
export async function strikeOffSheet(
  facts: ParcelFacts,
  pictures: SheetPictures,
  paper: Paper,
): Promise<Buffer> {
  const page = new Page(paper, {
    title: `${facts.name}: strike-off sheet`,
    subject: 'A design in repeat, for printing',
    creator: `tenter ${facts.tenter}`,
  });
  new Sheet(page, facts, pictures).draw();
  return page.finish((number, count) => {
    const y = page.height - page.margin + 5;
    page.line(facts.name.length > 70 ? `${facts.name.slice(0, 69)}…` : facts.name, page.margin, y, SMALL);
    page.line(`${number} of ${count}`, page.width - page.margin, y, SMALL, 'right');
  });
}

class Sheet {
  readonly #page: Page;
  readonly #facts: ParcelFacts;
  readonly #pictures: SheetPictures;
  /** mm of the next base line. */
  #y = 0;

  constructor(page: Page, facts: ParcelFacts, pictures: SheetPictures) {
    this.#page = page;
    this.#facts = facts;
    this.#pictures = pictures;
  }

  draw(): void {
    this.#front();
    this.#turn();
    this.#inks();
    this.#colourways();
    this.#recipe();
    this.#cautions();
    this.#files();
  }

  #front(): void {
    const page = this.#page;
    const x = page.margin;
    page.addPage();
    page.line('Strike-off sheet', x, page.margin + 2, { size: 9, colour: QUIET });
    const style = this.#titleStyle();
    const lines = page.broken(this.#facts.name, page.measure, style).slice(0, 2);
    let y = page.margin + 3.5;
    for (const line of lines) page.line(line, x, (y += leading(style)), style);
    const top = y + 8;
    y = drawSwatch(page, top, this.#pictures, this.#facts);
    y = page.text(
      'The print at its real size. Lay a ruler beside this one: 100 mm must be 100 mm, else print the sheet again at 100 %, not fitted to the page. Marks at the edges show where copies of the tile begin.',
      x,
      y + 1,
      page.measure,
      SMALL,
    );
    this.#lower(y + 5);
  }

  #titleStyle() {
    for (const size of [26, 21, 17]) {
      const style = { size, weight: 500 } as const;
      if (this.#page.broken(this.#facts.name, this.#page.measure, style).length <= (size === 26 ? 1 : 2))
        return style;
    }
    return { size: 14, weight: 500 } as const;
  }

  #lower(top: number): void {
    const page = this.#page;
    page.rule(page.margin, top, page.width - page.margin, top);
    const y = top + 6.5;
    page.line('Repeat', page.margin, y, HEADING);
    drawRepeat(page, page.margin, y + 3.5, this.#pictures, this.#facts);
    const x = page.margin + page.measure / 2 + 6;
    this.#table(x, y, page.measure / 2 - 6);
  }

  #table(x: number, top: number, width: number): void {
    const { repeat, print, seams, card } = this.#facts;
    const rows: [string, string][] = [
      ['Size', formatSize({ width: repeat.widthMm, height: repeat.heightMm })],
      ['Layout', capital(layoutWords(this.#facts))],
      ['Pixels', pixelWords(this.#facts)],
      ['Colours', profileWords(print)],
      [
        'Screens',
        card
          ? `${card.screens}, by the shade card "${card.name}"`
          : 'Not settled: in continuous tone, without a shade card',
      ],
      ['Closes', seams.summary],
      ['Print', `${print.file}, SHA-256 ${this.#fingerprint(print.file)} …`],
    ];
    let y = top;
    for (const [label, words] of rows) {
      this.#page.line(label, x, y, { ...BODY, colour: QUIET });
      y = this.#page.text(words, x + 19, y, width - 19, BODY) + 1.6;
    }
  }

  #fingerprint(file: string): string {
    return this.#facts.files.find(({ name }) => name === file)?.sha256.slice(0, BEGINNING) ?? '';
  }

  #turn(): void {
    this.#page.addPage();
    this.#y = this.#page.margin + 4;
  }

  /** Room for so many mm, on this page or the next. */
  #room(mm: number): void {
    if (this.#y + mm > this.#page.height - this.#page.margin - FOOT + 6) this.#turn();
  }

  #section(title: string, room = 24): void {
    const page = this.#page;
    this.#room(room);
    if (this.#y > page.margin + 8) {
      page.rule(page.margin, this.#y, page.width - page.margin, this.#y);
      this.#y += 6.5;
    }
    page.line(title, page.margin, this.#y, HEADING);
    this.#y += 6.5;
  }

  #paragraph(text: string, x = this.#page.margin, style: { size: number; colour?: string } = BODY): void {
    for (const line of this.#page.broken(text, this.#page.width - this.#page.margin - x, style)) {
      this.#room(leading(style));
      this.#page.line(line, x, this.#y, style);
      this.#y += leading(style);
    }
  }

  #inks(): void {
    const { card } = this.#facts;
    if (!card) return;
    const page = this.#page;
    this.#section(
      `Inks, in the order of printing: ${card.screens} ${card.screens === 1 ? 'screen' : 'screens'}`,
    );
    const [x, right] = [page.margin, page.width - page.margin];
    for (const { order, name, colour, percent, cm2, covers, note } of card.inks) {
      this.#room(10);
      page.box(x + 12, this.#y - 4.6, 15, 6.6, { fill: colour, stroke: HAIR });
      page.line(
        order === undefined ? 'ground' : `${order}`,
        x,
        this.#y,
        order === undefined ? SMALL : HEADING,
      );
      const names = page.broken(name, 62, BODY);
      page.line(names[0] ?? '', x + 31, this.#y, BODY);
      page.line(colour, x + 97, this.#y, SMALL);
      page.line(`${trimNumber(percent, 1)} %`, right - 24, this.#y, BODY, 'right');
      page.line(`${trimNumber(cm2, 1)} cm²`, right, this.#y, BODY, 'right');
      const more = [
        ...names.slice(1),
        ...page.broken(
          [covers || order === undefined ? '' : 'Does not cover: what lies under it shows.', note]
            .filter(Boolean)
            .join(' '),
          page.measure - 31,
          SMALL,
        ),
      ];
      this.#y += 4.2;
      for (const line of more) {
        page.line(line, x + 31, this.#y, SMALL);
        this.#y += leading(SMALL);
      }
      this.#y += 4.2;
    }
    this.#paragraph('Areas of one repeat.', x, SMALL);
    this.#y += 3;
  }

  #colourways(): void {
    const { colourways } = this.#facts;
    if (colourways.length === 0) return;
    this.#section('Colourways, for the same screens');
    const page = this.#page;
    for (const { name, colours } of colourways) {
      const entries = Object.entries(colours);
      const wide = (page.measure - 44) / Math.max(entries.length, 5);
      const perRow = Math.max(1, Math.floor((page.measure - 44) / Math.max(wide, 18)));
      const rows = Math.ceil(entries.length / perRow);
      this.#room(16 * rows);
      page.text(name, page.margin, this.#y, 40, BODY);
      for (const [index, [ink, colour]] of entries.entries()) {
        const x = page.margin + 44 + (index % perRow) * Math.max(wide, 18);
        const y = this.#y + 14 * Math.floor(index / perRow);
        page.box(x, y - 4.6, Math.max(wide, 18) - 2, 6.6, { fill: colour, stroke: HAIR });
        page.line(page.broken(ink, Math.max(wide, 18) - 2, SMALL)[0] ?? '', x, y + 5.2, SMALL);
      }
      this.#y += 14 * rows + 1;
    }
    this.#y += 1;
  }

  #recipe(): void {
    const { steps, layers } = this.#facts;
    this.#section('How it was made');
    if (steps.length === 0)
      this.#paragraph('The picture as it came; nothing was laid over it for this parcel.');
    for (const [index, step] of steps.entries()) {
      this.#room(10);
      this.#page.line(`${index + 1}. ${stepTitle(step)}`, this.#page.margin, this.#y, BODY);
      this.#y += leading(BODY) + 0.4;
      this.#paragraph(step.words.join(' '), this.#page.margin, { size: 8.5, colour: '#45433f' });
      this.#y += 2.2;
    }
    if (layers) {
      this.#paragraph(layerWords(layers), this.#page.margin, SMALL);
    }
    this.#y += 3;
  }

  #cautions(): void {
    this.#section('To be careful of');
    for (const caution of this.#facts.cautions) {
      this.#room(leading(BODY));
      this.#page.line('–', this.#page.margin, this.#y, BODY);
      this.#paragraph(caution, this.#page.margin + 4.5);
      this.#y += 1.2;
    }
    this.#y += 2.5;
  }

  #files(): void {
    const page = this.#page;
    this.#section('Files, and how to see that they are the right ones');
    for (const file of this.#facts.files) this.#file(file);
    this.#y += 1;
    this.#paragraph(
      'SHA-256 is a fingerprint of a file; its first 16 letters stand here and the whole of it in parcel.json. README.txt says how to compute it.',
      page.margin,
      SMALL,
    );
  }

  #file({ name, what, bytes, sha256 }: FileFacts): void {
    const page = this.#page;
    const lines = page.broken(name, page.measure - 60, BODY);
    const whats = page.broken(what, page.measure - 60, SMALL);
    this.#room(lines.length * leading(BODY) + whats.length * leading(SMALL) + 2);
    const right = page.width - page.margin;
    page.line(`${sha256.slice(0, BEGINNING)} …`, right, this.#y, BODY, 'right');
    page.line(sizeWords(bytes), right, this.#y + leading(BODY), SMALL, 'right');
    for (const line of lines) {
      page.line(line, page.margin, this.#y, BODY);
      this.#y += leading(BODY);
    }
    for (const line of whats) {
      page.line(line, page.margin, this.#y, SMALL);
      this.#y += leading(SMALL);
    }
    this.#y += 2;
  }
}

/** How near the layers come to the print. */
export function layerWords({ file, off, missing, order }: NonNullable<ParcelFacts['layers']>): string {
  const count = `${file} holds it apart in ${order.length} layers`;
  const near = `laid together they are the print to within ${off.most} of 255`;
  const touched =
    off.touchedUp > 0
      ? `; without the touch-up, which covers ${trimNumber(100 * off.touchedUp, 1)} % of it, to within ${off.withoutTouchUp}`
      : '';
  const more = missing.length > 0 ? ` ${missing.map((words) => `${words}.`).join(' ')}` : '';
  return `${count}: ${near}${touched}.${more}`;
}

function sizeWords(bytes: number): string {
  return bytes < 1e6 ? `${trimNumber(bytes / 1e3, 1)} kB` : `${trimNumber(bytes / 1e6, 1)} MB`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
