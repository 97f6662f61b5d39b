import type { FileHandle } from 'node:fs/promises';
import { type ReadAt, writeFully } from './file-access.ts';
import type { Density } from './picture.ts';

/** Tags of TIFF 6.0 and its supplements that this room looks at. */
export const TAG = {
  newSubfileType: 254,
  xResolution: 282,
  yResolution: 283,
  resolutionUnit: 296,
  extraSamples: 338,
  profile: 34_675,
  rawVersion: 50_706,
} as const;

/** An entry of an image file directory (TIFF 6.0, section 2). */
export interface Entry {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  /** Where its value is: in the entry itself where it is short enough, else where the entry points. */
  readonly valueOffset: number;
  /** Of the value; for types that are not known, the least that it can be. */
  readonly valueBytes: number;
}

/** How a file counts: BigTIFF has wider fields than TIFF 6.0. */
export interface Dialect {
  readonly little: boolean;
  readonly big: boolean;
}

export interface Directory {
  readonly dialect: Dialect;
  readonly offset: number;
  readonly entries: readonly Entry[];
}

/** Bytes of one value, by type; what is not listed is not read. */
const TYPE_BYTES: Readonly<Record<number, number>> = { 1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 7: 1, 16: 8 };
const SHORT = 3;
const LONG = 4;
const RATIONAL = 5;
/** Tags from here on are private (TIFF 6.0, section 2): what is in them does not change the pixels. */
const FIRST_PRIVATE = 32_768;
/** Values of one tag beyond these are of no interest here. */
const MAX_VALUES = 16;
const UNIT_INCH = 2;
const UNIT_CM = 3;

/** The first directory; undefined where the file is cut short or is not made as TIFF says. */
export async function firstDirectory(read: ReadAt): Promise<Directory | undefined> {
  const head = await read(0, 16);
  const dialect = { little: head[0] === 0x49, big: head[head[0] === 0x49 ? 2 : 3] === 43 };
  if (head.length < 8 || (dialect.big && head.length < 16)) return undefined;
  const offset = dialect.big ? wide(head, 8, dialect) : long(head, 4, dialect);
  const countBytes = dialect.big ? 8 : 2;
  const entryBytes = dialect.big ? 20 : 12;
  const start = await read(offset, countBytes);
  if (start.length < countBytes) return undefined;
  const count = dialect.big ? wide(start, 0, dialect) : short(start, 0, dialect);
  if (count > 65_535) return undefined;
  const bytes = await read(offset + countBytes, count * entryBytes);
  if (bytes.length < count * entryBytes) return undefined;
  const entries = Array.from({ length: count }, (_, index) =>
    entryOf(bytes, index * entryBytes, offset + countBytes, dialect),
  );
  return { dialect, offset, entries };
}

function entryOf(bytes: Buffer, at: number, base: number, dialect: Dialect): Entry {
  const [tag, type] = [short(bytes, at, dialect), short(bytes, at + 2, dialect)];
  const count = dialect.big ? wide(bytes, at + 4, dialect) : long(bytes, at + 4, dialect);
  const field = at + (dialect.big ? 12 : 8);
  const valueBytes = count * (TYPE_BYTES[type] ?? 1);
  const fits = valueBytes <= (dialect.big ? 8 : 4);
  const pointed = dialect.big ? wide(bytes, field, dialect) : long(bytes, field, dialect);
  return { tag, type, count, valueOffset: fits ? base + field : pointed, valueBytes };
}

/**
 * True where the value of a tag that bears on the picture lies beyond the end of the file. The engine
 * warns of that and reads the picture without the value: in other colours, where it was the profile.
 */
export function isCutShort({ entries }: Directory, fileBytes: number): boolean {
  return entries.some(
    ({ tag, valueOffset, valueBytes }) =>
      (tag < FIRST_PRIVATE || tag === TAG.profile) && valueOffset + valueBytes > fileBytes,
  );
}

/** The numbers of a tag; empty where it is missing or of another type. */
export async function numbersOf(read: ReadAt, directory: Directory, tag: number): Promise<number[]> {
  const entry = directory.entries.find((candidate) => candidate.tag === tag);
  const size = entry && TYPE_BYTES[entry.type];
  if (!entry || !size) return [];
  const bytes = await read(entry.valueOffset, Math.min(entry.count, MAX_VALUES) * size);
  return Array.from({ length: Math.floor(bytes.length / size) }, (_, index) =>
    numberAt(bytes, index * size, entry.type, directory.dialect),
  );
}

/** The density that resolution tags state; they are the same in TIFF and in EXIF. */
export async function resolutionOf(read: ReadAt, directory: Directory): Promise<Density | undefined> {
  const [x] = await numbersOf(read, directory, TAG.xResolution);
  const [y] = await numbersOf(read, directory, TAG.yResolution);
  // Inch where it is not said (TIFF 6.0, section 8).
  const [unit = UNIT_INCH] = await numbersOf(read, directory, TAG.resolutionUnit);
  const perMm = { [UNIT_INCH]: 1 / 25.4, [UNIT_CM]: 1 / 10 }[unit];
  return x && y && perMm ? { x: x * perMm, y: y * perMm } : undefined;
}

function numberAt(bytes: Buffer, at: number, type: number, dialect: Dialect): number {
  if (type === SHORT) return short(bytes, at, dialect);
  if (type === LONG) return long(bytes, at, dialect);
  if (type === RATIONAL) return long(bytes, at, dialect) / long(bytes, at + 4, dialect);
  return TYPE_BYTES[type] === 8 ? wide(bytes, at, dialect) : bytes[at];
}

function short(bytes: Buffer, at: number, { little }: Dialect): number {
  return little ? bytes.readUInt16LE(at) : bytes.readUInt16BE(at);
}

function long(bytes: Buffer, at: number, { little }: Dialect): number {
  return little ? bytes.readUInt32LE(at) : bytes.readUInt32BE(at);
}

function wide(bytes: Buffer, at: number, { little }: Dialect): number {
  return Number(little ? bytes.readBigUInt64LE(at) : bytes.readBigUInt64BE(at));
}

const UNDEFINED = 7;
/** Classic TIFF: an entry, and the number of entries before them. */
const ENTRY_BYTES = 12;
const COUNT_BYTES = 2;

/**
 * Gives the first directory of a classic TIFF one more entry of raw bytes. Bytes and a new
 * directory go behind the file and the header then points there; nothing else moves.
 */
export async function appendEntry(
  file: FileHandle,
  { dialect, offset, entries }: Directory,
  tag: number,
  bytes: Buffer,
): Promise<void> {
  if (dialect.big) throw new Error('a BigTIFF is not extended');
  const old = Buffer.alloc(COUNT_BYTES + entries.length * ENTRY_BYTES + 4);
  await file.read(old, 0, old.length, offset);
  const start = even((await file.stat()).size);
  const directoryStart = even(start + bytes.length);

  const entry = Buffer.alloc(ENTRY_BYTES);
  writeShort(entry, tag, 0, dialect);
  writeShort(entry, UNDEFINED, 2, dialect);
  writeLong(entry, bytes.length, 4, dialect);
  writeLong(entry, start, 8, dialect);
  // Entries stand in the order of their tags (TIFF 6.0, section 2).
  const before = COUNT_BYTES + entries.filter((other) => other.tag < tag).length * ENTRY_BYTES;
  const count = Buffer.alloc(COUNT_BYTES);
  writeShort(count, entries.length + 1, 0, dialect);
  const directory = Buffer.concat([count, old.subarray(COUNT_BYTES, before), entry, old.subarray(before)]);

  await writeFully(file, bytes, start);
  await writeFully(file, directory, directoryStart);
  const pointer = Buffer.alloc(4);
  writeLong(pointer, directoryStart, 0, dialect);
  await writeFully(file, pointer, 4);
}

function even(offset: number): number {
  return offset + (offset & 1);
}

function writeShort(bytes: Buffer, value: number, at: number, { little }: Dialect): void {
  little ? bytes.writeUInt16LE(value, at) : bytes.writeUInt16BE(value, at);
}

function writeLong(bytes: Buffer, value: number, at: number, { little }: Dialect): void {
  little ? bytes.writeUInt32LE(value, at) : bytes.writeUInt32BE(value, at);
}
