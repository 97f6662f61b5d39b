import type { Metadata } from 'sharp';
import { damaged, unreadable } from './faults.ts';
import { memoryReader, type ReadAt } from './file-access.ts';
import { hasJpegProfile, jfifDensity } from './jpeg.ts';
import type { PictureFormat } from './kind.ts';
import type { Density } from './picture.ts';
import { chunksBeforePixels, densityOfPhys } from './png.ts';
import { firstDirectory, isCutShort, numbersOf, resolutionOf, TAG } from './tiff.ts';
import { hasWebpProfile } from './webp.ts';

/** What a file states beside its samples; the engine rounds or drops most of it. */
export interface Statements {
  readonly density?: Density;
  /** The channel beyond the colours is data of the user's, not transparency. */
  readonly extraIsData: boolean;
  /** A profile is embedded, be it whole or not. */
  readonly hasProfile: boolean;
  readonly notes: readonly string[];
}

/** A file that is open. */
interface Source {
  readonly read: ReadAt;
  /** Its size. */
  readonly bytes: number;
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

/**
 * Reads what a file states of itself. Only its head is read.
 *
 * @throws Fault (input) for a TIFF that is no picture, or whose head points beyond its end.
 */
export async function statementsOf(
  path: string,
  format: PictureFormat,
  source: Source,
  facts: Metadata,
): Promise<Statements> {
  const stated = await byFormat(path, format, source, facts);
  return { ...stated, density: plausible(stated.density) };
}

async function byFormat(
  path: string,
  format: PictureFormat,
  source: Source,
  facts: Metadata,
): Promise<Statements> {
  const { read } = source;
  if (format === 'TIFF') return tiffStatements(path, source, facts);
  if (format === 'PNG') return pngStatements(read, facts);
  const jfif = format === 'JPEG' ? await jfifDensity(read) : undefined;
  const hasProfile = await (format === 'JPEG' ? hasJpegProfile : hasWebpProfile)(read);
  const notes = (facts.pages ?? 1) > 1 ? [`of its ${facts.pages} frames the first was read`] : [];
  return {
    density: plausible(jfif) ?? (await exifDensity(facts.exif)),
    extraIsData: false,
    hasProfile,
    notes,
  };
}

async function tiffStatements(path: string, { read, bytes }: Source, facts: Metadata): Promise<Statements> {
  const directory = await firstDirectory(read);
  if (!directory || isCutShort(directory, bytes)) throw damaged(path, 'TIFF');
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
  const hasProfile = directory.entries.some(({ tag }) => tag === TAG.profile);
  const notes = [];
  if (extraIsData) notes.push('its extra channel is not transparency and was left out');
  if ((facts.pages ?? 1) > 1) notes.push(`of its ${facts.pages} pages the first was read`);
  return { density: await resolutionOf(read, directory), extraIsData, hasProfile, notes };
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
  if (code && (code[0] !== SRGB_PRIMARIES || code[1] !== SRGB_TRANSFER)) {
    notes.push(`its colour code (${code[0]}, ${code[1]}) was not applied; the colours were taken as sRGB`);
  } else if (
    gamma?.length === 4 &&
    !chunks.some(({ type }) => type === 'sRGB' || type === 'iCCP' || type === 'cICP')
  ) {
    notes.push(...gammaNotes(gamma.readUInt32BE()));
  }
  const hasProfile = chunks.some(({ type }) => type === 'iCCP');
  const density = phys ? densityOfPhys(phys) : await exifDensity(facts.exif);
  return { density, extraIsData: false, hasProfile, notes };
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
