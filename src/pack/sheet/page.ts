import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';

/** mm on paper to the points of PDF (ISO 32000-1, 8.3.2.3: 1/72 inch). */
export const POINTS_PER_MM = 72 / 25.4;

export type Paper = 'a4' | 'a3';

/** mm, upright (ISO 216). */
export const PAPERS: Readonly<Record<Paper, { width: number; height: number; margin: number }>> = {
  a4: { width: 210, height: 297, margin: 16 },
  a3: { width: 297, height: 420, margin: 22 },
};

export const INK = '#1d1d1b';
export const QUIET = '#6f6c66';
export const HAIR = '#c9c5bd';

export type Weight = 400 | 500;

export interface TextStyle {
  /** Points. */
  readonly size: number;
  readonly weight?: Weight;
  readonly colour?: string;
}

/**
 * Jost, SIL Open Font License, which lets it be embedded. As WOFF: of the outlines in a WOFF2 the writer makes
 * shards.
 */
function readFace(weight: Weight, script: 'latin' | 'latin-ext'): Buffer {
  const file = `@fontsource/jost/files/jost-${script}-${weight}-normal.woff`;
  return readFileSync(createRequire(import.meta.url).resolve(file));
}

/** Beyond these the first face has no letters, and the second is asked (Latin Extended). */
const FIRST_FACE = /[ -\u00ff\u0131\u0152\u0153\u02c6\u02da\u02dc\u2010-\u2027\u20ac\u2122\u2212]/;
const SECOND_FACE = /[\u0100-\u024f\u1e00-\u1eff]/;

/**
 * A paper to write on, in mm from its left upper corner. Letters are embedded; nothing in the file tells the hour, so
 * the same facts give the same bytes.
 */
export class Page {
  readonly doc: PDFKit.PDFDocument;
  readonly width: number;
  readonly height: number;
  readonly margin: number;

  constructor(paper: Paper, info: { title: string; subject: string; creator: string }) {
    const { width, height, margin } = PAPERS[paper];
    Object.assign(this, { width, height, margin });
    this.width = width;
    this.height = height;
    this.margin = margin;
    this.doc = new PDFDocument({
      size: [width * POINTS_PER_MM, height * POINTS_PER_MM],
      margin: 0,
      autoFirstPage: false,
      bufferPages: true,
      lang: 'en',
      displayTitle: true,
      info: {
        Title: info.title,
        Subject: info.subject,
        Creator: info.creator,
        Producer: info.creator,
        CreationDate: stated() ?? new Date(0),
      },
    });
    // The writer asks for an hour where it writes none.
    if (!stated()) Object.defineProperty(this.doc.info, 'CreationDate', { enumerable: false });
    for (const weight of [400, 500] as const)
      for (const script of ['latin', 'latin-ext'] as const)
        this.doc.registerFont(`${script}-${weight}`, readFace(weight, script));
  }

  addPage(): void {
    this.doc.addPage();
  }

  /** Between the margins. */
  get measure(): number {
    return this.width - 2 * this.margin;
  }

  /** mm that a text takes in one line. */
  widthOf(text: string, style: TextStyle): number {
    return this.#runs(text, style).reduce((sum, { width }) => sum + width, 0);
  }

  /** One line. @param y mm of its base line. */
  line(
    text: string,
    x: number,
    y: number,
    style: TextStyle,
    align: 'left' | 'right' | 'centre' = 'left',
  ): void {
    const whole = align === 'left' ? 0 : this.widthOf(text, style);
    let at = x - (align === 'right' ? whole : align === 'centre' ? whole / 2 : 0);
    for (const run of this.#runs(text, style)) {
      this.doc
        .font(run.face)
        .fontSize(style.size)
        .fillColor(style.colour ?? INK)
        .text(run.text, at * POINTS_PER_MM, y * POINTS_PER_MM, { lineBreak: false, baseline: 'alphabetic' });
      at += run.width;
    }
  }

  /** A text broken into lines; a word that is longer than a line is broken too. */
  broken(text: string, width: number, style: TextStyle): string[] {
    const lines: string[] = [];
    let line = '';
    const take = (word: string) => {
      const longer = line === '' ? word : `${line} ${word}`;
      if (this.widthOf(longer, style) <= width) {
        line = longer;
        return;
      }
      if (line !== '') lines.push(line);
      line = word;
      while (this.widthOf(line, style) > width) {
        let count = line.length - 1;
        while (count > 1 && this.widthOf(line.slice(0, count), style) > width) count--;
        lines.push(line.slice(0, count));
        line = line.slice(count);
      }
    };
    for (const word of text.split(/\s+/).filter(Boolean)) take(word);
    if (line !== '') lines.push(line);
    return lines;
  }

  /** Text in lines. @param y mm of the first base line. @returns mm of the base line after the last. */
  text(text: string, x: number, y: number, width: number, style: TextStyle): number {
    const lines = this.broken(text, width, style);
    for (const [index, line] of lines.entries()) this.line(line, x, y + index * leading(style), style);
    return y + lines.length * leading(style);
  }

  rule(x1: number, y1: number, x2: number, y2: number, colour = HAIR, width = 0.15): void {
    this.doc
      .moveTo(x1 * POINTS_PER_MM, y1 * POINTS_PER_MM)
      .lineTo(x2 * POINTS_PER_MM, y2 * POINTS_PER_MM)
      .lineWidth(width * POINTS_PER_MM)
      .strokeColor(colour)
      .stroke();
  }

  /** A line with a point at both ends or at its end. */
  arrow(x1: number, y1: number, x2: number, y2: number, isDouble = true): void {
    this.rule(x1, y1, x2, y2, INK, 0.2);
    const length = Math.hypot(x2 - x1, y2 - y1) || 1;
    const [dx, dy] = [(x2 - x1) / length, (y2 - y1) / length];
    this.#point(x2, y2, dx, dy);
    if (isDouble) this.#point(x1, y1, -dx, -dy);
  }

  #point(x: number, y: number, dx: number, dy: number): void {
    const [long, half] = [1.7, 0.55];
    const corners = [
      [x, y],
      [x - long * dx - half * dy, y - long * dy + half * dx],
      [x - long * dx + half * dy, y - long * dy - half * dx],
    ].map(([a, b]) => [a * POINTS_PER_MM, b * POINTS_PER_MM] as [number, number]);
    this.doc.polygon(...corners).fill(INK);
  }

  box(x: number, y: number, width: number, height: number, style: { fill?: string; stroke?: string }): void {
    const shape = this.doc.rect(...([x, y, width, height].map((mm) => mm * POINTS_PER_MM) as Box));
    if (style.fill && style.stroke)
      shape.lineWidth(0.15 * POINTS_PER_MM).fillAndStroke(style.fill, style.stroke);
    else if (style.fill) shape.fill(style.fill);
    else
      shape
        .lineWidth(0.15 * POINTS_PER_MM)
        .strokeColor(style.stroke ?? HAIR)
        .stroke();
  }

  /** @param png A PNG without alpha, which goes in as it is. */
  picture(png: Buffer, x: number, y: number, width: number, height: number): void {
    this.doc.image(png, x * POINTS_PER_MM, y * POINTS_PER_MM, {
      width: width * POINTS_PER_MM,
      height: height * POINTS_PER_MM,
    });
  }

  /** Draws inside a rectangle alone. */
  within(x: number, y: number, width: number, height: number, draw: () => void): void {
    this.doc.save();
    this.doc.rect(...([x, y, width, height].map((mm) => mm * POINTS_PER_MM) as Box)).clip();
    draw();
    this.doc.restore();
  }

  /** Something on each page, when their number is known; then the whole file. */
  async finish(onEachPage: (number: number, count: number) => void): Promise<Buffer> {
    const { start, count } = this.doc.bufferedPageRange();
    for (let index = 0; index < count; index++) {
      this.doc.switchToPage(start + index);
      onEachPage(index + 1, count);
    }
    const pieces: Buffer[] = [];
    const whole = new Promise<Buffer>((resolve, reject) => {
      this.doc.on('data', (piece: Buffer) => pieces.push(piece));
      this.doc.on('end', () => resolve(Buffer.concat(pieces)));
      this.doc.on('error', reject);
    });
    this.doc.end();
    return whole;
  }

  /** Parts of a text that stand in one face each. */
  #runs(text: string, { size, weight = 400 }: TextStyle): { text: string; face: string; width: number }[] {
    const runs: { text: string; face: string }[] = [];
    for (const letter of text.normalize('NFC')) {
      const shown = FIRST_FACE.test(letter) || SECOND_FACE.test(letter) ? letter : '?';
      const face = `${FIRST_FACE.test(shown) ? 'latin' : 'latin-ext'}-${weight}`;
      const last = runs.at(-1);
      if (last?.face === face) last.text += shown;
      else runs.push({ text: shown, face });
    }
    return runs.map((run) => ({
      ...run,
      width: this.doc.font(run.face).fontSize(size).widthOfString(run.text) / POINTS_PER_MM,
    }));
  }
}

type Box = [number, number, number, number];

/** mm from one base line to the next. */
export function leading({ size }: TextStyle): number {
  return (1.38 * size) / POINTS_PER_MM;
}

/** An hour that whoever builds the same again gives to all of it (SOURCE_DATE_EPOCH, seconds); none where not said. */
function stated(): Date | undefined {
  const text = process.env.SOURCE_DATE_EPOCH;
  return text !== undefined && /^\d{1,11}$/.test(text) ? new Date(1000 * Number(text)) : undefined;
}
