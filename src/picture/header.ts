import { type FileHandle, readFile } from 'node:fs/promises';
import type { Metadata } from 'sharp';
import { Fault } from '../fault.ts';
import { sharp } from './engine.ts';
import { damaged, reasonOf, unreadable } from './faults.ts';
import { fileReader, type ReadAt } from './file-access.ts';
import { describeOther, formatOf, HEAD_BYTES, type PictureFormat } from './kind.ts';
import { remedyOfMissing } from './near-file.ts';
import { type Bits, DEFAULT_MAX_PIXELS, type Density } from './picture.ts';
import { hasPngEnd, pngSize } from './png.ts';
import { type Profile, profileOf } from './profile.ts';
import { openRegularFile } from './regular-file.ts';
import { type Statements, statementsOf } from './statements.ts';

/** What is known of a picture file before its pixels are decoded. */
export interface Header {
  readonly path: string;
  readonly format: PictureFormat;
  /** As stored, before any turn. */
  readonly width: number;
  readonly height: number;
  /** Of the samples that decoding gives. */
  readonly bits: Bits;
  readonly colours: 'grey' | 'RGB' | 'CMYK';
  /** The fourth (or second) channel is transparency. */
  readonly transparent: boolean;
  readonly palette: boolean;
  readonly profile?: Profile;
  /** EXIF orientation, 1..8; 1 stands upright. */
  readonly orientation: number;
  readonly density?: Density;
  /** What the file says that the picture does not carry over. */
  readonly notes: readonly string[];
}

const COLOURS: Readonly<Record<string, Header['colours']>> = {
  'b-w': 'grey',
  grey16: 'grey',
  srgb: 'RGB',
  rgb: 'RGB',
  rgb16: 'RGB',
  cmyk: 'CMYK',
};
const CHANNELS = { grey: 1, RGB: 3, CMYK: 4 };

/**
 * Looks at a file without decoding its pixels.
 *
 * @throws Fault (input) where it is missing, a folder, empty, not a picture of a format or sample
 *   kind that is read, visibly cut short, or claims more than `maxPixels`.
 */
export async function readHeader(path: string, maxPixels = DEFAULT_MAX_PIXELS): Promise<Header> {
  checkLimit(maxPixels);
  const { file, size } = await openRegularFile(path).catch((cause) => {
    throw unreadable(path, { received: reasonOf(cause), remedy: remedyFor(path, cause), cause });
  });
  try {
    if (size === 0) {
      throw unreadable(path, { received: 'an empty file (0 bytes)', remedy: 'Copy it here again.' });
    }
    return await headerOf(path, file, size, maxPixels);
  } finally {
    await file.close();
  }
}

async function headerOf(path: string, file: FileHandle, size: number, maxPixels: number): Promise<Header> {
  const read = fileReader(file);
  const head = await read(0, HEAD_BYTES);
  const format = formatOf(head);
  if (!format) throw unreadable(path, { received: describeOther(head), remedy: 'Export it as PNG or TIFF.' });
  if (format === 'PNG') await checkPng(path, read, size, maxPixels);
  const facts = await engineFacts(path, format);
  checkSize(path, facts, maxPixels);
  const statements = await statementsOf(path, format, { read, bytes: size }, facts);
  return { path, format, ...samplesOf(path, facts, statements), ...statements };
}

/** The engine lets pass a PNG without its end, and one wider than it can count it calls damaged. */
async function checkPng(path: string, read: ReadAt, size: number, maxPixels: number): Promise<void> {
  const claimed = await pngSize(read);
  if (!claimed) throw damaged(path, 'PNG');
  checkSize(path, claimed, maxPixels);
  if (!(await hasPngEnd(read, size))) throw damaged(path, 'PNG');
}

function engineFacts(path: string, format: PictureFormat): Promise<Metadata> {
  return engineSource(path)
    .then((source) => sharp(source, { limitInputPixels: false, limitInputChannels: false }).metadata())
    .catch((cause) => {
      throw damaged(path, format, cause);
    });
}

function samplesOf(path: string, facts: Metadata, { extraIsData, hasProfile }: Statements) {
  const { space, depth, channels, width, height } = facts;
  const colours = COLOURS[space];
  const spare = channels - CHANNELS[colours ?? 'RGB'];
  if (!colours || spare > 1) {
    throw wrongSamples(path, `${channels} channels${colours ? '' : ` of colours in ${space}`}`);
  }
  if (depth !== 'uchar' && depth !== 'ushort')
    throw wrongSamples(path, 'samples that are not whole numbers of 8 or 16 bit');
  // The engine converts CMYK to 8 bit whatever its depth.
  const bits: Bits = depth === 'ushort' && colours !== 'CMYK' ? 16 : 8;
  return {
    width,
    height,
    bits,
    colours,
    transparent: spare === 1 && !extraIsData,
    palette: facts.isPalette === true,
    profile: facts.icc ? profileFor(colours, profileOf(facts.icc)) : lostProfile(hasProfile),
    orientation: facts.orientation ?? 1,
  };
}

/** The engine drops a profile that it finds broken, without a word. */
function lostProfile(hasProfile: boolean): Profile | undefined {
  return hasProfile ? { kind: 'broken' } : undefined;
}

/** A profile that is made for other colours than the file's cannot be used. */
function profileFor(colours: Header['colours'], profile: Profile): Profile {
  const fits = {
    grey: profile.kind !== 'table' || profile.space === 'GRAY',
    RGB: profile.kind !== 'grey' && (profile.kind !== 'table' || profile.space === 'RGB'),
    CMYK: profile.kind === 'table' && profile.space === 'CMYK',
  };
  return fits[colours] ? profile : { kind: 'broken', name: profile.name };
}

function remedyFor(path: string, { code }: NodeJS.ErrnoException): string {
  if (code === 'ENOENT') return remedyOfMissing(path);
  if (code === 'EISDIR') return 'Name one picture in it.';
  return code === 'EACCES' || code === 'EPERM' ? 'Check its rights.' : 'Check the path.';
}

/**
 * What the engine should open. It takes a name that ends in brackets for a name with options, so
 * such a file is handed over as bytes.
 */
export async function engineSource(path: string): Promise<string | Buffer> {
  return path.endsWith(']') ? readFile(path) : path;
}

function checkLimit(maxPixels: number): void {
  if (maxPixels >= 1) return;
  throw new Fault({
    kind: 'usage',
    expected: 'a number of pixels from 1',
    subject: 'maxPixels',
    received: String(maxPixels),
  });
}

function checkSize(path: string, size: { width: number; height: number }, maxPixels: number): void {
  const { width, height } = size;
  if (width * height <= maxPixels) return;
  throw new Fault({
    kind: 'input',
    expected: `a picture of at most ${megapixels(maxPixels)}`,
    subject: path,
    received: `one that claims ${width} x ${height} px (${megapixels(width * height)})`,
    remedy: 'It was not decoded. Cut it to one repeat, or lower its density.',
    details: { width, height, maxPixels },
  });
}

function megapixels(pixels: number): string {
  return `${Number((pixels / 1e6).toPrecision(4))} megapixels`;
}

function wrongSamples(path: string, received: string): Fault {
  return unreadable(path, {
    received: `a picture with ${received}`,
    remedy: 'Save it as grey, RGB or CMYK with 8 or 16 bit and at most one channel of transparency.',
  });
}
