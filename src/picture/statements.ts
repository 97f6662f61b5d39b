import type { Metadata } from 'sharp';
import { unreadable } from './faults.ts';
import { memoryReader, type ReadAt } from './file-access.ts';
import { jfifDensity } from './jpeg.ts';
import type { PictureFormat } from './kind.ts';
import type { Density } from './picture.ts';
import { chunksBeforePixels, densityOfPhys } from './png.ts';
import { firstDirectory, numbersOf, resolutionOf, TAG } from './tiff.ts';

/** What a file states beside its samples; the engine rounds or drops most of it. */
export interface Statements {
  readonly density?: Density;
  /** The channel beyond the colours is data of the user's, not transparency. */
  readonly extraIsData: boolean;
  readonly notes: readonly string[];
}

/** gAMA of sRGB: 1 / 2.2 in hundred thousandths (PNG Specification, 11.3.2.5). */
const SRGB_GAMMA = 45_455;
const GAMMA_TOLERANCE = 100;
/** Primaries and curve of sRGB in a cICP chunk (ITU-T H.273). */
const [SRGB_PRIMARIES, SRGB_TRANSFER] = [1, 13];
/** ExtraSamples: 0 is data of no stated meaning, 1 and 2 are alpha (TIFF 6.0, section 18). */
const UNSTATED_DATA = 0;
/** NewSubfileType, bit 0: a smaller version of another picture in the file (TIFF 6.0, section 8). */
const REDUCED = 1;
/** What programs write when they know no density is below this: 1 dot per inch, 1 per cm. */
const LEAST_DENSITY = 0.11;

/** Reads what a file states of itself. Only its head is read. */
export async function statementsOf(
  path: string,
  format: PictureFormat,
  read: ReadAt,
  facts: Metadata,
): Promise<Statements> {
  const stated = await byFormat(path, format, read, facts);
  return { ...stated, density: plausible(stated.density) };
}

async function byFormat(
  path: string,
  format: PictureFormat,
  read: ReadAt,
  facts: Metadata,
): Promise<Statements> {
  if (format === 'TIFF') return tiffStatements(path, read, facts);
  if (format === 'PNG') return pngStatements(read, facts);
  const jfif = format === 'JPEG' ? await jfifDensity(read) : undefined;
  const notes = (facts.pages ?? 1) > 1 ? [`of its ${facts.pages} frames the first was read`] : [];
  return { density: plausible(jfif) ?? (await exifDensity(facts.exif)), extraIsData: false, notes };
}

async function tiffStatements(path: string, read: ReadAt, facts: Metadata): Promise<Statements> {
  const directory = await firstDirectory(read);
  if (!directory) return { extraIsData: false, notes: [] };
  const [kind = 0] = await numbersOf(read, directory, TAG.newSubfileType);
  const isRaw = directory.entries.some(({ tag }) => tag === TAG.rawVersion);
  if (isRaw || kind & REDUCED) {
    throw unreadable(path, {
      received: isRaw ? 'a raw camera file' : 'a TIFF file that begins with a reduced preview',
      remedy: 'Export the picture itself as PNG or TIFF.',
    });
  }
  const [extra] = await numbersOf(read, directory, TAG.extraSamples);
  const extraIsData = extra === UNSTATED_DATA;
  const notes = [];
  if (extraIsData) notes.push('its extra channel is not transparency and was left out');
  if ((facts.pages ?? 1) > 1) notes.push(`of its ${facts.pages} pages the first was read`);
  return { density: await resolutionOf(read, directory), extraIsData, notes };
}

async function pngStatements(read: ReadAt, facts: Metadata): Promise<Statements> {
  const chunks = await chunksBeforePixels(read);
  const dataOf = async (type: string) => {
    const chunk = chunks.find((candidate) => candidate.type === type);
    return chunk && read(chunk.offset, Math.min(chunk.length, 16));
  };
  const [phys, gamma, code] = [await dataOf('pHYs'), await dataOf('gAMA'), await dataOf('cICP')];
  const notes: string[] = [];
  if (chunks.some(({ type }) => type === 'acTL')) notes.push('it is animated; its still picture was read');
  if (chunks.some(({ type }) => type === 'iCCP') && !facts.icc) {
    notes.push('its colour profile cannot be used; the colours were taken as sRGB');
  }
  if (code && (code[0] !== SRGB_PRIMARIES || code[1] !== SRGB_TRANSFER)) {
    notes.push(`its colour code (${code[0]}, ${code[1]}) was not applied; the colours were taken as sRGB`);
  } else if (
    gamma?.length === 4 &&
    !chunks.some(({ type }) => type === 'sRGB' || type === 'iCCP' || type === 'cICP')
  ) {
    notes.push(...gammaNotes(gamma.readUInt32BE()));
  }
  return { density: phys ? densityOfPhys(phys) : await exifDensity(facts.exif), extraIsData: false, notes };
}

function gammaNotes(gamma: number): string[] {
  if (Math.abs(gamma - SRGB_GAMMA) <= GAMMA_TOLERANCE) return [];
  return [`its gamma (1/${(1e5 / gamma).toFixed(2)}) was not applied; the colours were taken as sRGB`];
}

/** The resolution in a block of EXIF, which is a small TIFF, behind six bytes of its own in JPEG. */
async function exifDensity(exif: Buffer | undefined): Promise<Density | undefined> {
  if (!exif) return undefined;
  const marked = exif.toString('latin1', 0, 6) === 'Exif\0\0';
  const read = memoryReader(marked ? exif.subarray(6) : exif);
  const directory = await firstDirectory(read);
  return directory && resolutionOf(read, directory);
}

function plausible(density: Density | undefined): Density | undefined {
  if (!density) return undefined;
  const fine = (value: number) => Number.isFinite(value) && value > LEAST_DENSITY;
  return fine(density.x) && fine(density.y) ? density : undefined;
}
