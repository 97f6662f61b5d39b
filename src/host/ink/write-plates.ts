import { readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { cancelled } from '../../effect/setting.ts';
import { Fault } from '../../fault.ts';
import {
  createRuledDots,
  createScatteredDots,
  type DotField,
  inkPlace,
  isWhole,
  markedRows,
  openDots,
  type Plates,
  plateBits,
  printedInks,
  printUnder,
  type ShadeCard,
  separate,
  type Trapped,
  trapPlates,
} from '../../ink/index.ts';
import {
  asciiOf,
  fillFolderBeside,
  openPlateFile,
  type Picture,
  type PlatePacking,
  sha256OfFile,
} from '../../picture/index.ts';
import { type Grid, gridOfPixels } from '../../repeat/grid.ts';
import { formatLayout, isReflected, type Layout } from '../../repeat/layout.ts';
import { type Size, trimNumber } from '../../repeat/length.ts';
import { type PlateProof, PROOF_FILE, proofPlates } from './proof-plates.ts';

/** How the dots of 1-bit plates stand. */
export type PlateDots =
  | { readonly shape: 'scattered' }
  | { readonly shape: 'lines' | 'round'; readonly perCm: number; readonly angle: number };

export interface PlateRequest {
  /** One tile. */
  readonly picture: Pick<Picture, 'pixels' | 'width' | 'height'>;
  readonly card: ShadeCard;
  readonly layout: Layout;
  /** mm of one tile; areas are then told in cm2 too. */
  readonly size?: Size;
  /** 8 for areas (by default), 1 for dots. */
  readonly bits?: 1 | 8;
  /** mm that inks spread under those they meet; none where absent. */
  readonly trap?: number;
  /** Names of inks that are printed over those before them instead of beside them; none where absent. */
  readonly overprint?: readonly string[];
  /** Scattered where absent. */
  readonly dots?: PlateDots;
  readonly packing?: PlatePacking;
  /** All plates in one file of separated inks, of 8 bits, instead of a file each. */
  readonly oneFile?: boolean;
  /** Marks in a margin round the repeat: the files are then larger than it. */
  readonly marks?: boolean;
  /** Also a picture put together again from the plates. */
  readonly proof?: boolean;
  /** The folder to write. */
  readonly out: string;
  readonly overwrite?: boolean;
}

export interface PlateProgress {
  readonly onProgress?: (done: number, what: string) => void;
  readonly signal?: AbortSignal;
}

export interface PlateFacts {
  readonly name: string;
  /** Which it is in the order of printing, from 1. */
  readonly order: number;
  /** sRGB bytes of the ink. */
  readonly colour: readonly [number, number, number];
  readonly covers: boolean;
  /** Name of its file in the folder. */
  readonly file: string;
  readonly sha256: string;
  readonly bytes: number;
  /** Percent of the tile that is covered, with traps. */
  readonly coverage: number;
  /** The same per tile, where its size is known. */
  readonly cm2?: number;
}

export interface PlateReport {
  readonly folder: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly size?: Size;
  readonly layout: string;
  readonly bits: 1 | 8;
  readonly plates: readonly PlateFacts[];
  /** That every pixel is all ink or none: a picture of counted inks, not of tones. */
  readonly isWhole: boolean;
  /** Percent: all plates added up. */
  readonly totalCoverage: number;
  /** mm asked, and what it came to. */
  readonly trap?: number;
  /** Names of the inks that are printed over those before them. */
  readonly overprint?: readonly string[];
  /** Where marks were asked for: pixels of margin at each side, beyond the size of the tile. */
  readonly marginPx?: number;
  /** Of ruled dots: what closes over the repeat. */
  readonly ruling?: { readonly perCm: number; readonly angle: number };
  readonly proof?: PlateProof;
  readonly warnings: readonly string[];
}

/** The file that says what stands in a folder of plates. */
export const PLATES_JSON = 'plates.json';
const ROWS_AT_ONCE = 64;
/** mm of the margin that marks stand in. */
const MARGIN = 10;
/** mm of a pixel where nothing tells it: only shares then matter. */
const UNSIZED = 1;

/**
 * Separates a tile and writes its plates, all or none, into a folder of their own with a `plates.json`.
 *
 * @throws Fault of any kind; nothing is then written.
 */
export async function writePlates(
  request: PlateRequest,
  { onProgress = () => {}, signal }: PlateProgress = {},
): Promise<PlateReport> {
  requirePlates(request);
  const { picture, card, layout, size, bits = 8, trap, out, overwrite } = request;
  const grid = gridOf(request);
  const writing = { overwrite, signal, isOurs: isPlateFolder };
  return fillFolderBeside(out, writing, async (folder) => {
    const plates = separate(picture, card, (rows) => onProgress((0.4 * rows) / picture.height, 'separating'));
    stopWhere(signal);
    const overprinted = overprintedIn(plates, layout, request.overprint ?? [], card);
    stopWhere(signal);
    const traps = trap === undefined ? [] : trapPlates(plates, layout, trap / grid.mmPerPixelX);
    stopWhere(signal);
    onProgress(0.6, 'writing');
    const whole = isWhole(plates);
    const field = bits === 1 && !whole ? dotsOf(request, grid) : undefined;
    const facts = await writeFiles(folder, request, plates, field);
    stopWhere(signal);
    onProgress(0.85, 'putting together');
    const proof = request.proof ? await proofPlates(folder, request, plates, field) : undefined;
    const report: PlateReport = {
      folder: out,
      isWhole: whole,
      widthPx: picture.width,
      heightPx: picture.height,
      size,
      layout: formatLayout(layout),
      bits,
      plates: facts,
      totalCoverage: facts.reduce((sum, { coverage }) => sum + coverage, 0),
      trap,
      ...(overprinted.length > 0 && { overprint: overprinted.map(({ name }) => name) }),
      ...(request.marks && { marginPx: marginOf(request) }),
      ruling: field?.kind === 'ruled' ? field.snapped : undefined,
      proof,
      warnings: [
        ...trapWarnings(request, grid, plates, traps),
        ...overprintWarnings(overprinted),
        ...emptyWarnings(facts),
      ],
    };
    const { folder: _, ...told } = report;
    await writeFile(join(folder, PLATES_JSON), `${JSON.stringify(told, null, 2)}\n`);
    return report;
  });
}

/** An ink that is printed over others, and how much of those went under it: pixels of area. */
interface Overprinted {
  readonly name: string;
  readonly added: number;
}

/** In the order of printing, so that an ink may be printed over one that is printed over others. */
function overprintedIn(
  plates: Plates,
  layout: Layout,
  names: readonly string[],
  card: ShadeCard,
): Overprinted[] {
  const asked = new Set(names.map((name) => card.inks[inkPlace(card, name, 'an ink to overprint')]));
  return plates.inks.flatMap((ink, place) =>
    asked.has(ink) ? [{ name: ink.name, added: printUnder(plates, layout, place) }] : [],
  );
}

function overprintWarnings(overprinted: readonly Overprinted[]): string[] {
  return overprinted
    .filter(({ added }) => added === 0)
    .map(({ name }) => `"${name}" overprints nothing: no ink that is printed before it stands beside it`);
}

async function writeFiles(
  folder: string,
  request: PlateRequest,
  plates: Plates,
  field: DotField | undefined,
): Promise<PlateFacts[]> {
  const { bits = 8, size, oneFile, packing } = request;
  const { width, height, inks } = plates;
  const pixelsPerMm = size && { x: width / size.width, y: height / size.height };
  const names = oneFile ? ['plates.tif'] : inks.map(({ name }, index) => fileName(index, name));
  const margin = marginOf(request);
  const marked = { width, height, margin };
  const each = { width: width + 2 * margin, height: height + 2 * margin, bits, packing, pixelsPerMm };
  const files = await Promise.all(
    names.map((name, index) =>
      openPlateFile(join(folder, name), {
        ...each,
        names: oneFile ? inks.map((ink) => ink.name) : [inks[index].name],
        description: oneFile
          ? `Plates of ${request.card.name}: the greater a sample, the more ink`
          : `Plate ${index + 1} of ${inks.length}, ${inks[index].name}: dark is ink`,
      }),
    ),
  );
  const dots = field && openDots(field);
  const standing = inks.map(() => 0);
  const put = async (top: number, count: number, rows?: readonly Uint8Array[]) => {
    const whole = inks.map((_, ink) =>
      rows && margin === 0 ? rows[ink] : markedRows(marked, ink + 1, bits, top, count, rows?.[ink]),
    );
    if (oneFile) await files[0].write(sideBySide(whole));
    else for (const [ink, file] of files.entries()) await file.write(whole[ink]);
  };
  try {
    if (margin > 0) await put(-margin, margin);
    for (let top = 0; top < height; top += ROWS_AT_ONCE) {
      const count = Math.min(ROWS_AT_ONCE, height - top);
      const rows =
        bits === 1
          ? plateBits(plates, top, count, dots)
          : plates.planes.map((plane) => plane.subarray(top * width, (top + count) * width));
      rows.forEach((block, ink) => {
        standing[ink] += bits === 1 ? onesOf(block) : sumOf(block) / 255;
      });
      await put(top, count, rows);
    }
    if (margin > 0) await put(height, margin);
    for (const file of files) await file.finish();
  } finally {
    for (const file of files) await file.close();
  }
  const written = await Promise.all(
    names.map(async (name) => {
      const path = join(folder, name);
      return { file: name, sha256: await sha256OfFile(path), bytes: (await stat(path)).size };
    }),
  );
  return inks.map(({ name, colour, covers }, index) => {
    const share = standing[index] / (width * height);
    return {
      ...{ name, order: index + 1, colour, covers },
      ...written[oneFile ? 0 : index],
      coverage: round(100 * share),
      ...(size && { cm2: round((share * size.width * size.height) / 100) }),
    };
  });
}

/** Pixels of the margin that marks stand in, at each side. */
function marginOf({ marks, picture, size }: PlateRequest): number {
  return marks && size ? Math.round((MARGIN * picture.width) / size.width) : 0;
}

function sideBySide(rows: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(rows.length * rows[0].length);
  rows.forEach((block, ink) => {
    for (let at = 0; at < block.length; at++) all[at * rows.length + ink] = block[at];
  });
  return all;
}

/** In the order of printing, by what of the name any file system holds. */
function fileName(index: number, name: string): string {
  const word = asciiOf(name)
    .replaceAll(/[^A-Za-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '');
  return `${String(index + 1).padStart(2, '0')}${word ? `-${word.toLowerCase()}` : ''}.tif`;
}

function dotsOf({ dots = { shape: 'scattered' }, layout }: PlateRequest, grid: Grid): DotField {
  // A reflected tile carries its dots with it: on its own, they close by straight copies and so by mirrored ones.
  const { lattice } = isReflected(layout)
    ? { lattice: { ax: grid.tileWidth, ay: 0, bx: 0, by: grid.tileHeight } }
    : grid;
  if (dots.shape === 'scattered') return createScatteredDots({ lattice });
  const { shape, perCm, angle } = dots;
  return createRuledDots({ grid, shape, perCm, angle });
}

function gridOf({ picture, layout, size }: PlateRequest): Grid {
  const { width, height } = picture;
  const mm = size ?? { width: width * UNSIZED, height: height * UNSIZED };
  return gridOfPixels({ layout, ...mm }, width, height);
}

function requirePlates(request: PlateRequest): void {
  const { card, layout, size, trap, dots, bits = 8, oneFile, marks } = request;
  if (printedInks(card).length === 0)
    throw usage(
      'at least one ink that is printed',
      `the shade card "${card.name}"`,
      'the ground alone',
      'Add the inks that screens print.',
    );
  if (trap !== undefined && !(trap > 0 && Number.isFinite(trap)))
    throw usage('a width above 0 mm', 'the trap', `${trap} mm`, 'Write for example 0.2mm, or leave it out.');
  if (!size && marks)
    throw usage(
      'the size of the tile',
      'marks in mm',
      'a picture that states no density',
      'Add --size or --dpi.',
    );
  const isRuled = dots !== undefined && dots.shape !== 'scattered';
  if (!size && (trap !== undefined || (isRuled && bits === 1)))
    throw usage(
      'the size of the tile',
      trap !== undefined ? 'a trap in mm' : 'a ruling per cm',
      'a picture that states no density',
      'Add for example --size 320x320mm or --dpi 300.',
    );
  if (oneFile && bits === 1)
    throw usage(
      '8 bits',
      'all plates in one file',
      '1 bit',
      'Leave out --one-file for 1-bit plates, or take --bits 8.',
    );
  if (dots && bits === 8)
    throw usage(
      '1-bit plates',
      'dots',
      '8 bits, which are areas without dots',
      'Add --bits 1, or leave the dots out.',
    );
  if (isRuled && isReflected(layout))
    throw usage(
      'scattered dots',
      `layout ${formatLayout(layout)}`,
      'dots in rows, which would meet themselves mirrored',
      'Take scattered dots, or lay the tile out over its whole repeat first.',
    );
}

function usage(expected: string, subject: string, received: string, remedy: string): Fault {
  return new Fault({ kind: 'usage', expected, subject, received, remedy });
}

function trapWarnings(
  { trap }: PlateRequest,
  { mmPerPixelX }: Grid,
  { inks }: Plates,
  traps: readonly Trapped[],
): string[] {
  if (trap === undefined) return [];
  const warnings = traps.flatMap(({ ink, under, narrow }) =>
    narrow === undefined
      ? []
      : [
          `the trap of ${trimNumber(trap, 2)} mm is wider than half of motifs that "${inks[ink].name}" spreads under (${under.map((other) => `"${inks[other].name}"`).join(', ')}), which are about ${trimNumber(narrow * mmPerPixelX, 2)} mm wide: it fills them`,
        ],
  );
  if (trap < mmPerPixelX)
    warnings.push(
      `the trap of ${trimNumber(trap, 3)} mm is finer than a pixel (${trimNumber(mmPerPixelX, 3)} mm): it is a tone, not a width`,
    );
  if (traps.every(({ added }) => added === 0)) warnings.push('no inks meet: the trap changed nothing');
  return warnings;
}

function emptyWarnings(facts: readonly PlateFacts[]): string[] {
  return facts.flatMap(({ name, coverage }) =>
    coverage === 0 ? [`the plate of "${name}" is empty: the picture has none of this ink`] : [],
  );
}

/** A folder that this wrote before: its plates.json says so. */
async function isPlateFolder(folder: string): Promise<boolean> {
  try {
    const { plates } = JSON.parse(await readFile(join(folder, PLATES_JSON), 'utf8'));
    const ours = new Set([PLATES_JSON, PROOF_FILE, ...plates.map(({ file }: PlateFacts) => file)]);
    return (await readdir(folder)).every((name) => ours.has(name));
  } catch {
    return false;
  }
}

function stopWhere(signal: AbortSignal | undefined): void {
  if (signal?.aborted) throw cancelled();
}

function sumOf(bytes: Uint8Array): number {
  let sum = 0;
  for (const value of bytes) sum += value;
  return sum;
}

function onesOf(bytes: Uint8Array): number {
  let ones = 0;
  for (const value of bytes) ones += ONES[value];
  return ones;
}

const ONES = Uint8Array.from({ length: 256 }, (_, byte) => byte.toString(2).replaceAll('0', '').length);

function round(value: number): number {
  return Number(value.toPrecision(6));
}
