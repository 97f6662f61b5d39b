import { createHash } from 'node:crypto';
import { type FileHandle, open } from 'node:fs/promises';
import type { PageData, PageOriginal, PageSwatch } from '../page/data.ts';
import { readFace } from './lettering.ts';
import type { PageFiles } from './page-files.ts';
import { escapeHtml, jsonForScript } from './page-words.ts';

/** Writes a page piece by piece, so that its pictures are never in memory together. */
export class PageWriter {
  readonly #file: FileHandle;
  readonly #files: PageFiles;
  readonly #swatches: PageSwatch[] = [];
  readonly #originals: PageOriginal[] = [];
  #bytes = 0;

  private constructor(file: FileHandle, files: PageFiles) {
    this.#file = file;
    this.#files = files;
  }

  static async begin(path: string, title: string, files: PageFiles): Promise<PageWriter> {
    const writer = new PageWriter(await open(path, 'w'), files);
    await writer.#put(headOf(title, files));
    return writer;
  }

  /** @param picture WebP in Base64; none where the swatch is empty. */
  async add(swatch: PageSwatch, picture?: string): Promise<void> {
    const index = this.#swatches.push(swatch) - 1;
    if (picture) await this.#putPicture(`picture-${index}`, picture);
  }

  /** @param picture WebP in Base64; none where it cannot be shown. */
  async addOriginal(original: PageOriginal, picture?: string): Promise<void> {
    const number = this.#originals.push(original) - 1;
    if (picture) await this.#putPicture(`original-${number}`, picture);
  }

  /** @returns Bytes of the whole page. */
  async end(rest: Omit<PageData, 'swatches' | 'originals'>): Promise<number> {
    const data: PageData = { ...rest, originals: this.#originals, swatches: this.#swatches };
    await this.#put(`<script type="application/json" id="data">${jsonForScript(data)}</script>\n`);
    await this.#put(`<script>${this.#files.script}</script>\n</body>\n</html>\n`);
    await this.close();
    return this.#bytes;
  }

  close(): Promise<void> {
    return this.#file.close();
  }

  #putPicture(id: string, picture: string): Promise<void> {
    return this.#put(`<script type="text/plain" id="${id}">${picture}</script>\n`);
  }

  async #put(text: string): Promise<void> {
    const { bytesWritten } = await this.#file
      .writeFile(text)
      .then(() => ({ bytesWritten: Buffer.byteLength(text) }));
    this.#bytes += bytesWritten;
  }
}

/** Nothing may be fetched, and no code or dress but its own is taken: not even what a name might smuggle in. */
function headOf(title: string, { script, style }: PageFiles): string {
  const dress = `${facesOf()}\n${style}`;
  const policy = [
    "default-src 'none'",
    'img-src data: blob:',
    'font-src data:',
    `script-src '${hashOf(script)}'`,
    `style-src '${hashOf(dress)}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeHtml(title)}</title>
<style>${dress}</style>
</head>
<body>
<div id="book"><h1>${escapeHtml(title)}</h1><p>The swatches are being laid out.</p></div>
<noscript><p>This page needs JavaScript to lay out its swatches; the contact sheets beside it do not.</p></noscript>
`;
}

function facesOf(): string {
  const weights = [400, 500] as const;
  return weights
    .map((weight) => {
      const data = readFace(weight).toString('base64');
      return `@font-face{font-family:Jost;font-weight:${weight};font-display:swap;src:url(data:font/woff2;base64,${data}) format("woff2")}`;
    })
    .join('\n');
}

function hashOf(text: string): string {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}
