import { basename } from 'node:path';
import { pathFrom } from '../../host/files/path-from.ts';
import { type ClosingLayout, closingLayouts, hasMirror } from '../../inspect/index.ts';
import { squareDensity, uprightSize } from '../../picture/decode.ts';
import { type Header, readHeader } from '../../picture/header.ts';
import { readPicture } from '../../picture/index.ts';
import { doubtSize } from '../../render/doubt-size.ts';
import { formatLayout, STRAIGHT } from '../../repeat/layout.ts';
import { formatSize, type Size, trimNumber } from '../../repeat/length.ts';

/** A picture that a collection file is started with. */
export interface StartedTile {
  readonly header: Header;
  /** The common layouts that it closes over, the likelier first. */
  readonly closing: readonly ClosingLayout[];
}

/**
 * Looks at a picture and tries the common layouts on it.
 *
 * @throws Fault (input) for what cannot be read.
 */
export async function lookAtTile(path: string): Promise<StartedTile> {
  const header = await readHeader(path);
  return { header, closing: closingLayouts(await readPicture(path)) };
}

/** The lines of a tile in a collection file in the folder `start`; `perMm` is taken where its file states no density. */
export function tileLines({ header, closing }: StartedTile, start: string, perMm: number): string {
  const { width, height } = uprightSize(header);
  const own = squareDensity(header);
  const path = pathFrom(start, header.path) || basename(header.path);
  const size = sizeAt(width, height, own ?? perMm);
  const density = own
    ? `its file states ${dpiOf(own)}`
    : `its file states no density, ${dpiOf(perMm)} is a guess`;
  const doubt = own && doubtSize({ size, from: 'file' }, width);
  const remarks = [
    `${width} x ${height} px; ${density}`,
    ...(doubt
      ? [
          `LOOK at the size: ${doubt}. At ${dpiOf(perMm)} it would be ${formatSize(sizeAt(width, height, perMm))}`,
        ]
      : []),
    layoutRemark(closing),
  ];
  const layout = formatLayout(closing[0]?.layout ?? STRAIGHT);
  const entry = `{ "picture": ${JSON.stringify(path)}, "layout": "${layout}", "size": "${formatSize(size).replaceAll(' ', '')}", "fit": true }`;
  return [...remarks.map((remark) => `// ${remark}`), entry].map((line) => `    ${line}`).join('\n');
}

function sizeAt(width: number, height: number, perMm: number): Size {
  return { width: Number((width / perMm).toFixed(2)), height: Number((height / perMm).toFixed(2)) };
}

function dpiOf(perMm: number): string {
  return `${trimNumber(perMm * 25.4, 2)} dpi`;
}

/** So many layouts are named in a remark. */
const MOST_NAMED = 4;

function layoutRemark(closing: readonly ClosingLayout[]): string {
  const [first] = closing;
  if (!first)
    return 'LOOK at the layout: it closes over none of those that were tried, so straight is a guess';
  const name = formatLayout(first.layout);
  if (first.grade === 'look')
    return `LOOK at the layout: ${name} comes nearest; "tenter check --layout ${name} --sheet" shows the place in doubt`;
  if (hasMirror(first.layout))
    return `LOOK at the layout: it shows no edge over ${name}, but at mirror lines a cut is easily missed`;
  const others = closing.slice(1).filter(({ layout, grade }) => grade === 'closes' && !hasMirror(layout));
  if (others.length === 0) return `it closes over ${name}`;
  const names = others.slice(0, MOST_NAMED).map(({ layout }) => formatLayout(layout));
  return `it closes over ${name}, and over ${names.join(', ')} as well: choose`;
}
