import { basename, extname, join } from 'node:path';
import { Fault } from '../../fault.ts';
import {
  type Colourway,
  type ColourwayDoubt,
  colourwayDoubts,
  createUnmixer,
  ownColourway,
} from '../../ink/index.ts';
import {
  type Picture,
  readPicture,
  refuseInputs,
  refuseOverwrite,
  refuseTwins,
  writePicture,
} from '../../picture/index.ts';
import { sizeOfTile } from '../../render/tile-grid.ts';
import type { Size } from '../../repeat/length.ts';
import { type ColourwayFile, colourwayNamed } from './colourway-file.ts';
import { misfitWarning, recolourFrame } from './recolour-frame.ts';

export interface ColourwaysRequest {
  readonly tile: string;
  readonly file: ColourwayFile;
  /** Names of the colourways to make; all where empty. */
  readonly only: readonly string[];
  /** Where the pictures go, each named after the tile and its colourway; none is written where absent. */
  readonly folder?: string;
  /** mm of one tile, or its pixels per mm, as the pictures are to state it; the tile's own density where absent. */
  readonly size?: Size;
  readonly density?: number;
  readonly overwrite?: boolean;
  /** Files besides the tile, the card and the colourway file that are written, and so must be none of them. */
  readonly others?: readonly string[];
}

export interface ColourwaysProgress {
  readonly onProgress?: (done: number, what: string) => void;
  readonly signal?: AbortSignal;
  /** Told of the tile as it is, and then of each recoloured picture before it is let go. */
  readonly onPicture?: (colourway: Colourway, picture: Picture) => Promise<void>;
}

/** One colourway that was made. */
export interface MadeColourway {
  readonly name: string;
  /** `#rrggbb` would be `hexOfBytes` of these; in the order of the card. */
  readonly colours: Colourway['colours'];
  readonly doubts: readonly ColourwayDoubt[];
  /** Where it was written; none where only looked at. */
  readonly out?: string;
  readonly bytes: number;
}

export interface ColourwaysReport {
  readonly made: readonly MadeColourway[];
  readonly width: number;
  readonly height: number;
  readonly notes: readonly string[];
  readonly warnings: readonly string[];
}

/**
 * Writes a tile in each of its colourways, with its own bits, alpha, density and pixels.
 *
 * @throws Fault of any kind. Those pictures that were written before it are whole and stay; of the others there is
 *   nothing.
 */
export async function writeColourways(
  { tile, file, only, folder, size, density, overwrite, others = [] }: ColourwaysRequest,
  { onProgress = () => {}, signal, onPicture }: ColourwaysProgress = {},
): Promise<ColourwaysReport> {
  const asked = only.length > 0 ? only.map((name) => colourwayNamed(file, name)) : file.colourways;
  const ways = [...new Set(asked)];
  const outs = folder === undefined ? [] : ways.map(({ name }) => join(folder, pictureName(tile, name)));
  await refuseTwins([...outs, ...others]);
  for (const path of [...outs, ...others]) {
    await refuseInputs(path, [tile, file.path, file.cardPath]);
    await refuseOverwrite(path, overwrite);
  }
  onProgress(0, 'reading');
  const picture = await readPicture(tile);
  const { pixels, width, height, pixelsPerMm } = picture;
  const sized = sizeOfTile(picture, { size, density, fileDensity: pixelsPerMm });
  const stated = sized && { x: width / sized.size.width, y: height / sized.size.height };
  const unmixer = createUnmixer(file.card);
  const misfit = misfitWarning(picture, { card: file.card, sources: [] }, unmixer);
  await onPicture?.({ ...ownColourway(file.card), name: 'As on the card' }, picture);
  const made: MadeColourway[] = [];
  const own = ways.length > 1 ? pixels.slice() : pixels;
  for (const [index, colourway] of ways.entries()) {
    onProgress((index + 0.2) / ways.length, `recolouring to ${colourway.name}`);
    if (index > 0) pixels.set(own);
    await recolourFrame(picture, { card: file.card, colourway, sources: [] }, { unmixer, signal });
    const out = outs[index];
    onProgress((index + 0.5) / ways.length, `writing ${colourway.name}`);
    const states = { pixels, width, height, pixelsPerMm: stated };
    const written = out === undefined ? undefined : await writePicture(out, states, { overwrite, signal });
    await onPicture?.(colourway, picture);
    const doubts = colourwayDoubts(file.card, colourway);
    const { name, colours } = colourway;
    made.push({ name, colours, doubts, out, bytes: written?.bytes ?? 0 });
  }
  return { made, width, height, notes: picture.notes, warnings: misfit === undefined ? [] : [misfit] };
}

/** A TIFF stays one; all else, which may have lost samples to compression, becomes a PNG. */
function pictureName(tile: string, colourway: string): string {
  const ending = extname(tile);
  const word = colourway.replaceAll(/[^\p{L}\p{N}_-]+/gu, '-').replaceAll(/^-+|-+$/g, '');
  if (word === '') throw unnameable(colourway);
  return `${basename(tile, ending)}-${word}${/^\.tiff?$/i.test(ending) ? ending.toLowerCase() : '.png'}`;
}

function unnameable(name: string): Fault {
  return new Fault({
    kind: 'input',
    expected: 'a name with a letter or a figure in it, that a file can be called by',
    subject: 'a colourway',
    received: `"${name}"`,
    remedy: 'Give it another name in the colourway file.',
  });
}
