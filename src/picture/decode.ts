import { type FileHandle, mkdtemp, open, rm } from 'node:fs/promises';
import { endianness } from 'node:os';
import { join } from 'node:path';
import type { OutputInfo, Sharp } from 'sharp';
import { sharp } from './engine.ts';
import { damaged } from './faults.ts';
import { engineSource, type Header } from './header.ts';
import { sweepTemporary, temporaryPrefix } from './litter.ts';
import type { Density, Samples } from './picture.ts';

/** How the decoded samples travel from the engine: through memory, or through a temporary file. */
export type Route = 'memory' | 'file';

/**
 * Pictures of more bytes than this go through a temporary file. The engine gives its result only
 * as one block, which Node frees late: at 7559 x 7559 px (RGBA, 229 MB) the peak was 518 MB
 * through memory and 303 MB through a file, in the same 0.6 s.
 */
const FILE_ROUTE_BYTES = 64e6;

const CHUNK_PIXELS = 1 << 20;
const CHANNELS = 4;

/** Size of the picture as it will stand, after the turn that its EXIF asks for. */
export function uprightSize(header: Header): { width: number; height: number } {
  const { width, height } = header;
  return isOnItsSide(header) ? { width: height, height: width } : { width, height };
}

/** Its density, where the file states one, after that turn. */
export function uprightDensity(header: Header): Density | undefined {
  const { density } = header;
  return density && isOnItsSide(header) ? { x: density.y, y: density.x } : density;
}

/** A density that differs more than this across and down is not one number. */
const SQUARE_TOLERANCE = 0.01;

/** Pixels per mm, where the file states one density for both directions. */
export function squareDensity({ density }: Pick<Header, 'density'>): number | undefined {
  return density && Math.abs(density.x / density.y - 1) <= SQUARE_TOLERANCE
    ? Math.sqrt(density.x * density.y)
    : undefined;
}

function isOnItsSide({ orientation }: Header): boolean {
  return orientation >= 5;
}

/**
 * Decodes a picture, piece by piece in order: straight RGBA of `header.bits`, upright. Colours are
 * sRGB where the file needs the engine for that (CMYK, table profiles), else as the file has them.
 *
 * @throws Fault (input) where the file is cut short or damaged. Pieces may have been given by then.
 */
export async function* decode(
  header: Header,
  route: Route = bytesOf(header) > FILE_ROUTE_BYTES ? 'file' : 'memory',
): AsyncGenerator<Samples> {
  const source = await engineSource(header.path);
  const spill = route === 'file' ? await Spill.make(header, pipeline(source, header)) : undefined;
  if (!spill) {
    yield* throughMemory(header, pipeline(source, header));
    return;
  }
  try {
    yield* spill.pieces();
  } finally {
    await spill.remove();
  }
}

function bytesOf({ width, height, bits }: Header): number {
  return width * height * CHANNELS * (bits / 8);
}

function pipeline(source: string | Buffer, header: Header): Sharp {
  const { format, width, height, bits, colours, profile, transparent } = header;
  const table = profile?.kind === 'table';
  const deepTable = table && bits === 16;
  const image = sharp(source, {
    // TIFF warns of loose tags that do not touch the pixels; elsewhere a warning is of damaged pixels.
    failOn: format === 'TIFF' ? 'error' : 'warning',
    limitInputPixels: width * height,
    // At 16 bit the engine would convert to Display P3 here; `withIccProfile` goes straight to sRGB.
    ignoreIcc: !table || deepTable,
    autoOrient: true,
  });
  if (!transparent) image.removeAlpha();
  image.ensureAlpha();
  if (bits === 16) image.toColourspace(deepTable && colours === 'grey' ? 'grey16' : 'rgb16');
  return deepTable ? image.withIccProfile('srgb') : image;
}

async function* throughMemory(header: Header, image: Sharp): AsyncGenerator<Samples> {
  const { bits } = header;
  const { data, info } = await image
    .raw({ depth: bits === 16 ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true })
    .catch((cause) => {
      throw damaged(header.path, header.format, cause);
    });
  checkResult(header, info);
  const samples = bits === 16 ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2) : data;
  for (let at = 0; at < samples.length; at += CHUNK_PIXELS * CHANNELS) {
    yield samples.subarray(at, at + CHUNK_PIXELS * CHANNELS);
  }
}

function checkResult(header: Header, info: OutputInfo): void {
  const { width, height } = uprightSize(header);
  if (info.width === width && info.height === height && info.channels === CHANNELS) return;
  throw damaged(header.path, header.format, new Error('the file changed while it was read'));
}

/** Decoded samples in a temporary file of the engine's own form: a fixed head, then the samples as they are. */
class Spill {
  static readonly HEAD_BYTES = 64;
  /** The first word of the head, in the order of bytes of the machine that wrote it. */
  static readonly MAGIC = 0x08_f2_a6_b6;

  private constructor(
    private readonly header: Header,
    private readonly folder: string,
    private readonly file: FileHandle,
  ) {}

  /** Undefined where it cannot be made (no room, a damaged picture): memory is tried then, and tells which. */
  static async make(header: Header, image: Sharp): Promise<Spill | undefined> {
    sweepTemporary();
    const folder = await mkdtemp(temporaryPrefix()).catch(() => undefined);
    if (!folder) return undefined;
    let file: FileHandle | undefined;
    try {
      const path = join(folder, 'samples.v');
      checkResult(header, await image.toFile(path));
      file = await open(path);
      const spill = new Spill(header, folder, file);
      if (await spill.isSound()) return spill;
    } catch {
      // The way through memory meets the same trouble again where it is the picture's, and reports it.
    }
    await file?.close();
    await rm(folder, { recursive: true, force: true });
    return undefined;
  }

  async *pieces(): AsyncGenerator<Samples> {
    const { bits } = this.header;
    const memory = new ArrayBuffer(CHUNK_PIXELS * CHANNELS * (bits / 8));
    const total = bytesOf(this.header);
    for (let done = 0; done < total; ) {
      const length = Math.min(memory.byteLength, total - done);
      await this.fill(new Uint8Array(memory, 0, length), Spill.HEAD_BYTES + done);
      yield bits === 16 ? new Uint16Array(memory, 0, length / 2) : new Uint8Array(memory, 0, length);
      done += length;
    }
  }

  async remove(): Promise<void> {
    await this.file.close();
    await rm(this.folder, { recursive: true, force: true });
  }

  private async isSound(): Promise<boolean> {
    const head = new DataView(new ArrayBuffer(Spill.HEAD_BYTES));
    await this.file.read(head, 0, Spill.HEAD_BYTES, 0);
    const little = endianness() === 'LE';
    const { width, height } = uprightSize(this.header);
    const [magic, ...rest] = [0, 4, 8, 12].map((at) => head.getUint32(at, little));
    // Sample kinds of the engine's form: 0 is 8 bit, 2 is 16 bit, both without sign.
    const kind = head.getUint32(20, little);
    const { size } = await this.file.stat();
    return (
      magic === Spill.MAGIC &&
      rest.join() === [width, height, CHANNELS].join() &&
      kind === (this.header.bits === 16 ? 2 : 0) &&
      size >= Spill.HEAD_BYTES + bytesOf(this.header)
    );
  }

  private async fill(target: Uint8Array, position: number): Promise<void> {
    for (let done = 0; done < target.length; ) {
      const { bytesRead } = await this.file.read(target, done, target.length - done, position + done);
      if (bytesRead === 0) throw damaged(this.header.path, this.header.format);
      done += bytesRead;
    }
  }
}
