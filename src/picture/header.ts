import { stat } from 'node:fs/promises';
import sharp, { type Metadata } from 'sharp';
import { Fault } from '../fault.ts';
import { READ_FORMATS } from './picture.ts';

// A tile is read once; keeping decoded pictures would only hold memory.
sharp.cache(false);

/** Well above a 640 x 640 mm tile at 300 dpi (57 megapixels), well below what would fill the memory. */
export const DEFAULT_MAX_PIXELS = 200e6;

const FORMATS = ['png', 'jpeg', 'webp', 'tiff'];
const DEPTHS = ['uchar', 'ushort'];

/**
 * Looks at a file without decoding it.
 *
 * @throws Fault (input) where it is missing, a folder, empty, no picture of a format that is read,
 *   of a sample kind that is not, or claims more than `maxPixels`.
 */
export async function readHeader(path: string, maxPixels = DEFAULT_MAX_PIXELS): Promise<Metadata> {
  await checkFile(path);
  const header = await sharp(path, { limitInputPixels: false })
    .metadata()
    .catch((cause) => {
      throw unreadable(path, 'a file that is none, or is damaged at its start', cause);
    });
  if (!FORMATS.includes(header.format)) throw unreadable(path, `a picture of kind ${header.format}`);
  if (!DEPTHS.includes(header.depth) || header.channels > 5) {
    throw unreadable(
      path,
      `${header.channels} channels of kind ${header.depth}`,
      undefined,
      'Save it with 8 or 16 bit grey, RGB or CMYK.',
    );
  }
  if (header.width * header.height > maxPixels) throw tooLarge(path, header, maxPixels);
  return header;
}

async function checkFile(path: string): Promise<void> {
  const found = await stat(path).catch((cause: NodeJS.ErrnoException) => {
    throw unreadable(
      path,
      cause.code === 'ENOENT' ? 'no such file' : cause.message,
      cause,
      'Check the path.',
    );
  });
  if (found.isDirectory()) throw unreadable(path, 'a folder');
  if (found.size === 0) throw unreadable(path, 'an empty file (0 bytes)', undefined, 'Copy it here again.');
}

/** The Fault of a file that cannot be read as a picture. */
export function unreadable(
  path: string,
  received: string,
  cause?: unknown,
  remedy = 'Give another file.',
): Fault {
  return new Fault({
    kind: 'input',
    expected: `a picture (${READ_FORMATS})`,
    subject: path,
    received,
    remedy,
    cause,
  });
}

function tooLarge(path: string, { width, height }: Metadata, maxPixels: number): Fault {
  return new Fault({
    kind: 'input',
    expected: `a picture of at most ${Math.round(maxPixels / 1e6)} megapixels`,
    subject: path,
    received: `one that claims ${width} x ${height} px (${Math.round((width * height) / 1e6)} megapixels)`,
    remedy: 'It was not decoded. Cut the tile to one repeat, or lower its density.',
  });
}
