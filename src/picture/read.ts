import { Fault } from '../fault.ts';
import { converterOf } from './convert.ts';
import { decode, type Route, squareDensity, uprightSize } from './decode.ts';
import { type Header, readHeader } from './header.ts';
import { type Picture, type Samples, sharedSamples } from './picture.ts';

export interface ReadOptions {
  /** Refuse a picture that claims more, before decoding it; 200 megapixels by default. */
  readonly maxPixels?: number;
  /** For tests; chosen by the size of the picture otherwise. */
  readonly route?: Route;
}

/**
 * Reads a picture as straight RGBA in sRGB: 16 bit stays 16 bit; grey, palette and CMYK become
 * RGB; an embedded profile is converted; an EXIF turn is carried out. Of several pages or frames
 * the first is read. The kind of file is told by its bytes, not by its name.
 *
 * @throws Fault (input) for whatever cannot be read whole; there is never half a picture.
 */
export async function readPicture(path: string, { maxPixels, route }: ReadOptions = {}): Promise<Picture> {
  const header = await readHeader(path, maxPixels);
  const { width, height } = uprightSize(header);
  const pixels = samplesFor(header, width * height * 4);
  let done = 0;
  for await (const piece of colouredPieces(header, route)) {
    pixels.set(piece, done);
    done += piece.length;
  }
  const { pixelsPerMm, notes } = densityOf(header);
  const { bits, transparent } = header;
  return { pixels, width, height, bits, transparent, pixelsPerMm, notes: [...notesOf(header), ...notes] };
}

/** The pieces of a picture, in sRGB. */
export async function* colouredPieces(header: Header, route?: Route): AsyncGenerator<Samples> {
  const convert = converterOf(header.profile, header.bits);
  for await (const piece of decode(header, route)) {
    convert?.(piece);
    yield piece;
  }
}

/** Shared memory for a picture, or the Fault that says that there is none. */
export function samplesFor({ path, width, height, bits }: Header, length: number): Samples {
  try {
    return sharedSamples(length, bits);
  } catch (cause) {
    throw new Fault({
      kind: 'input',
      expected: 'a picture that fits into memory',
      subject: path,
      received: `${width} x ${height} px of ${bits} bit`,
      remedy: 'Cut it to one repeat, lower its density, or save it with 8 bit.',
      cause,
    });
  }
}

function densityOf(header: Header): { pixelsPerMm?: number; notes: string[] } {
  const pixelsPerMm = squareDensity(header);
  if (!header.density || pixelsPerMm !== undefined) return { pixelsPerMm, notes: [] };
  const { x, y } = header.density;
  const dpi = (perMm: number) => Number((perMm * 25.4).toFixed(2));
  return { notes: [`its density (${dpi(x)} dpi across, ${dpi(y)} down) is not one number and was left out`] };
}

function notesOf(header: Header): string[] {
  const { orientation, palette, colours, notes } = header;
  const all = [...colourNotes(header), ...notes];
  if (palette) all.push('its palette was expanded');
  else if (colours === 'grey') all.push('grey was expanded to RGB');
  if (orientation !== 1) all.push(`turned as its EXIF orientation (${orientation}) says`);
  return all;
}

function colourNotes({ colours, profile }: Header): string[] {
  if (profile?.kind === 'srgb') return [];
  const broken = profile?.kind === 'broken' ? [brokenNote(profile.name)] : [];
  if (colours === 'CMYK') {
    const by = profile?.kind === 'table' ? `its profile "${profile.name}"` : 'a general press profile';
    return [...broken, `CMYK was converted to sRGB by ${by}; printed colours may differ`];
  }
  if (broken.length > 0) return [`${broken[0]}; the colours were taken as sRGB`];
  return profile ? [`its colour profile "${profile.name}" was converted to sRGB`] : [];
}

function brokenNote(name: string | undefined): string {
  return `its colour profile ${name === undefined ? '' : `"${name}" `}cannot be used`;
}
