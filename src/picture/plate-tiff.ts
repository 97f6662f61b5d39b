import { type FileHandle, open } from 'node:fs/promises';
import { promisify } from 'node:util';
import { deflate } from 'node:zlib';
import { writeFully } from './file-access.ts';
import { packBits } from './pack-bits.ts';
import type { Density } from './picture.ts';

/** How the strips of a plate are packed, each without loss. */
export type PlatePacking = 'none' | 'packbits' | 'deflate';

/** What a file of plates holds. */
export interface PlateFile {
  readonly width: number;
  readonly height: number;
  /** Of one sample: 1 where dots stand or do not, 8 for coverage. */
  readonly bits: 1 | 8;
  /** One for a plate alone; several stand side by side in each pixel, with 8 bits. */
  readonly names: readonly string[];
  /** What a reader may show of it: one line of text. */
  readonly description: string;
  readonly pixelsPerMm?: Density;
  /** PackBits by default: every reader of TIFF must know it (TIFF 6.0, section 9), and plates are long runs. */
  readonly packing?: PlatePacking;
}

/** A file of plates that takes its rows from the top down. */
export interface PlateWriter {
  /** Any whole number of rows: samples side by side; of 1 bit eight to a byte, the leftmost highest. */
  write(rows: Uint8Array): Promise<void>;
  /** Writes what says how the rows are to be read. */
  finish(): Promise<void>;
  close(): Promise<void>;
}

const ASCII = 2;
const SHORT = 3;
const LONG = 4;
const RATIONAL = 5;
const COMPRESSION = { none: 1, packbits: 32_773, deflate: 8 } as const;
/** Bytes of a strip before it is packed, about; TIFF 6.0 advises small ones, packing wants large. */
const STRIP_BYTES = 1 << 18;
const WHITE_IS_ZERO = 0;
const SEPARATED = 5;
const NOT_CMYK = 2;
const PER_CM = 3;
const RATIONAL_PARTS = 1e4;

const deflated = promisify(deflate);

/**
 * Opens a file of plates (TIFF 6.0). One plate alone is grey with no ink as white (PhotometricInterpretation 0), so
 * that whoever opens it sees ink dark, its name in PageName (285); several are separated inks (section 16:
 * PhotometricInterpretation 5, InkSet 2, InkNames). Always: the greater the sample, the more ink.
 */
export async function openPlateFile(path: string, plate: PlateFile): Promise<PlateWriter> {
  const file = await open(path, 'w');
  const rowBytes = plate.names.length * (plate.bits === 8 ? plate.width : Math.ceil(plate.width / 8));
  const rowsPerStrip = Math.min(plate.height, Math.max(1, Math.floor(STRIP_BYTES / rowBytes)));
  const offsets: number[] = [];
  const counts: number[] = [];
  let waiting = new Uint8Array(0);
  let end = 8;

  const append = async (bytes: Uint8Array) => {
    const at = end;
    await writeFully(file, Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength), at);
    end += bytes.length + (bytes.length & 1);
    return at;
  };
  const strip = async (rows: Uint8Array) => {
    const packed = await pack(rows, rowBytes, plate.packing);
    offsets.push(await append(packed));
    counts.push(packed.length);
  };

  return {
    async write(rows) {
      const all = waiting.length > 0 ? Buffer.concat([waiting, rows]) : rows;
      const stripBytes = rowsPerStrip * rowBytes;
      let at = 0;
      for (; at + stripBytes <= all.length; at += stripBytes) await strip(all.subarray(at, at + stripBytes));
      waiting = all.slice(at);
    },
    async finish() {
      if (waiting.length > 0) await strip(waiting);
      await writeDirectory(file, append, entriesOf(plate, { offsets, counts, rowsPerStrip }));
    },
    close: () => file.close(),
  };
}

async function pack(rows: Uint8Array, rowBytes: number, packing: PlatePacking = 'packbits') {
  if (packing === 'deflate') return deflated(rows, { level: 6 });
  return packing === 'packbits' ? packBits(rows, rowBytes) : rows;
}

interface Strips {
  readonly offsets: readonly number[];
  readonly counts: readonly number[];
  readonly rowsPerStrip: number;
}

interface NewEntry {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  readonly bytes: Buffer;
}

/** In the order of their tags, as TIFF 6.0, section 2 wants them. */
function entriesOf(plate: PlateFile, { offsets, counts, rowsPerStrip }: Strips): NewEntry[] {
  const { width, height, bits, names, description, pixelsPerMm, packing = 'packbits' } = plate;
  const several = names.length > 1;
  return [
    longs(256, [width]),
    longs(257, [height]),
    shorts(258, new Array(names.length).fill(bits)),
    shorts(259, [COMPRESSION[packing]]),
    shorts(262, [several ? SEPARATED : WHITE_IS_ZERO]),
    text(270, description),
    longs(273, offsets),
    shorts(277, [names.length]),
    longs(278, [rowsPerStrip]),
    longs(279, counts),
    ...(pixelsPerMm ? [rational(282, 10 * pixelsPerMm.x), rational(283, 10 * pixelsPerMm.y)] : []),
    shorts(284, [1]),
    ...(several ? [] : [text(285, names[0])]),
    ...(pixelsPerMm ? [shorts(296, [PER_CM])] : []),
    ...(several
      ? [
          shorts(332, [NOT_CMYK]),
          text(333, names.map(asciiOf).join('\0')),
          shorts(334, [names.length]),
          shorts(336, [0, 255]),
        ]
      : []),
  ];
}

async function writeDirectory(
  file: FileHandle,
  append: (bytes: Uint8Array) => Promise<number>,
  entries: readonly NewEntry[],
): Promise<void> {
  const directory = Buffer.alloc(2 + 12 * entries.length + 4);
  directory.writeUInt16LE(entries.length, 0);
  for (const [index, { tag, type, count, bytes }] of entries.entries()) {
    const at = 2 + 12 * index;
    directory.writeUInt16LE(tag, at);
    directory.writeUInt16LE(type, at + 2);
    directory.writeUInt32LE(count, at + 4);
    if (bytes.length <= 4) bytes.copy(directory, at + 8);
    else directory.writeUInt32LE(await append(bytes), at + 8);
  }
  const head = Buffer.from('49492a0000000000', 'hex');
  head.writeUInt32LE(await append(directory), 4);
  await writeFully(file, head, 0);
}

function shorts(tag: number, values: readonly number[]): NewEntry {
  const bytes = Buffer.alloc(2 * values.length);
  values.forEach((value, index) => {
    bytes.writeUInt16LE(value, 2 * index);
  });
  return { tag, type: SHORT, count: values.length, bytes };
}

function longs(tag: number, values: readonly number[]): NewEntry {
  const bytes = Buffer.alloc(4 * values.length);
  values.forEach((value, index) => {
    bytes.writeUInt32LE(value, 4 * index);
  });
  return { tag, type: LONG, count: values.length, bytes };
}

function rational(tag: number, value: number): NewEntry {
  const [bytes] = [longs(tag, [Math.round(value * RATIONAL_PARTS), RATIONAL_PARTS])].map(
    (entry) => entry.bytes,
  );
  return { tag, type: RATIONAL, count: 1, bytes };
}

function text(tag: number, value: string): NewEntry {
  const bytes = Buffer.from(`${asciiOf(value)}\0`, 'latin1');
  return { tag, type: ASCII, count: bytes.length, bytes };
}

/** As much of a text as TIFF's 7 bits hold: letters without their marks, `_` for what has no like. */
export function asciiOf(value: string): string {
  return value
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/[^\0\x20-\x7e]/gu, '_');
}
