/** TIFF files from bytes, by TIFF 6.0: the directory first, one strip without compression last. */
export interface TiffParts {
  readonly width: number;
  readonly height: number;
  /** Of each channel. */
  readonly bits: readonly number[];
  /** 0 white is zero, 1 black is zero, 2 RGB, 5 CMYK, 8 Lab. */
  readonly photometric: number;
  readonly strip: Uint8Array;
  readonly tags?: readonly TiffTag[];
  readonly bigEndian?: boolean;
}

/** Number, type and values; a rational is a pair, bytes are taken as they are. */
export type TiffTag = readonly [
  tag: number,
  type: number,
  values: readonly (number | [number, number])[] | Buffer,
];

const SHORT = 3;
const LONG = 4;
const RATIONAL = 5;
const STRIP_OFFSETS = 273;

export function tiffFile(parts: TiffParts): Buffer {
  const { width, height, bits, photometric, strip, tags = [], bigEndian = false } = parts;
  const all: TiffTag[] = [
    [256, LONG, [width]],
    [257, LONG, [height]],
    [258, SHORT, bits],
    [259, SHORT, [1]],
    [262, SHORT, [photometric]],
    [STRIP_OFFSETS, LONG, [0]],
    [277, SHORT, [bits.length]],
    [278, LONG, [height]],
    [279, LONG, [strip.length]],
    ...tags,
  ];
  all.sort(([first], [second]) => first - second);
  return assemble(all, strip, bigEndian);
}

function assemble(tags: readonly TiffTag[], strip: Uint8Array, bigEndian: boolean): Buffer {
  const values = tags.map((tag) => encode(tag, bigEndian));
  const behind = 8 + 2 + 12 * tags.length + 4;
  const long = values.map((bytes) => (bytes.length > 4 ? bytes.length + (bytes.length & 1) : 0));
  const stripAt = behind + long.reduce((sum, length) => sum + length, 0);
  values[tags.findIndex(([tag]) => tag === STRIP_OFFSETS)] = number(stripAt, 4, bigEndian);
  let free = behind;
  const entries = tags.map(([tag, type, given], index) => {
    const count = Buffer.isBuffer(given) ? given.length : given.length;
    const field = Buffer.alloc(4);
    if (long[index] > 0) number(free, 4, bigEndian).copy(field);
    else values[index].copy(field);
    free += long[index];
    return Buffer.concat([
      number(tag, 2, bigEndian),
      number(type, 2, bigEndian),
      number(count, 4, bigEndian),
      field,
    ]);
  });
  const pointed = values.map((bytes, index) => Buffer.concat([bytes], long[index]));
  return Buffer.concat([
    Buffer.from(bigEndian ? 'MM\0*' : 'II*\0', 'latin1'),
    number(8, 4, bigEndian),
    number(tags.length, 2, bigEndian),
    ...entries,
    Buffer.alloc(4),
    ...pointed,
    strip,
  ]);
}

function encode([, type, values]: TiffTag, bigEndian: boolean): Buffer {
  if (Buffer.isBuffer(values)) return values;
  const size = { [SHORT]: 2, [LONG]: 4, [RATIONAL]: 4 }[type] ?? 1;
  return Buffer.concat((values.flat() as number[]).map((value) => number(value, size, bigEndian)));
}

function number(value: number, size: number, bigEndian: boolean): Buffer {
  const bytes = Buffer.alloc(size);
  if (bigEndian) bytes.writeUIntBE(value, 0, size);
  else bytes.writeUIntLE(value, 0, size);
  return bytes;
}

/** The number of a tag of the first directory of a little-endian file, for checking what was written. */
export function tiffNumber(file: Buffer, wanted: number): number | undefined {
  const start = file.readUInt32LE(4);
  for (let at = start + 2; at < start + 2 + 12 * file.readUInt16LE(start); at += 12) {
    if (file.readUInt16LE(at) !== wanted) continue;
    const type = file.readUInt16LE(at + 2);
    if (type === SHORT) return file.readUInt16LE(at + 8);
    const field = file.readUInt32LE(at + 8);
    return type === RATIONAL ? file.readUInt32LE(field) / file.readUInt32LE(field + 4) : field;
  }
  return undefined;
}
