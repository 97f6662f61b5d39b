import { createReadStream } from 'node:fs';
import { type FileHandle, open, stat } from 'node:fs/promises';
import { crc32 } from 'node:zlib';
import { Fault } from '../fault.ts';

/** A file that goes into a ZIP, by its bytes or by where it lies. */
export interface ZipEntry {
  /** Path inside, with forward slashes. */
  readonly name: string;
  readonly from: string | Uint8Array;
}

/** Everything is stored: pictures are compressed already, and the rest is small. */
const STORED = 0;
const VERSION = 20;
/** Names are UTF-8 (APPNOTE 4.4.4, bit 11). */
const UTF8 = 1 << 11;
/** 1 January 1980, where the times of a ZIP begin: the same files give the same bytes. */
const FIRST_DAY = (1 << 5) | 1;
const MOST_BYTES = 0xffff_ffff;

/**
 * Writes a ZIP (APPNOTE.TXT 6.3, without its 64-bit parts): entries in the order given, stored, all of one fixed
 * time. Files are read piece by piece, so a parcel of any size takes no more memory than a small one.
 *
 * @throws Fault (output) for more than 4 GB.
 */
export async function writeZip(path: string, entries: readonly ZipEntry[]): Promise<void> {
  const file = await open(path, 'w');
  try {
    const headers: Buffer[] = [];
    let at = 0;
    for (const entry of entries) {
      const name = Buffer.from(entry.name, 'utf8');
      const size = typeof entry.from === 'string' ? (await stat(entry.from)).size : entry.from.length;
      if (at + size + 100 * entries.length > MOST_BYTES) throw tooLarge(path);
      const start = at;
      at += 30 + name.length;
      const sum = await copyInto(file, entry.from, at);
      const facts = factsOf(sum, size, name.length);
      await writeAt(file, Buffer.concat([word(0x04034b50), facts, short(0), name]), start);
      headers.push(centralHeader(facts, name, start));
      at += size;
    }
    const central = Buffer.concat(headers);
    await writeAt(file, Buffer.concat([central, endOf(entries.length, central.length, at)]), at);
  } finally {
    await file.close();
  }
}

async function copyInto(file: FileHandle, from: string | Uint8Array, start: number): Promise<number> {
  if (typeof from !== 'string') {
    await writeAt(file, from, start);
    return crc32(from);
  }
  let [sum, at] = [0, start];
  for await (const piece of createReadStream(from, { highWaterMark: 1 << 20 })) {
    await writeAt(file, piece, at);
    sum = crc32(piece, sum);
    at += piece.length;
  }
  return sum;
}

async function writeAt(file: FileHandle, bytes: Uint8Array, start: number): Promise<void> {
  for (let done = 0; done < bytes.length; ) {
    const { bytesWritten } = await file.write(bytes, done, bytes.length - done, start + done);
    done += bytesWritten;
  }
}

/** What the header before a file and the one in the directory have in common. */
function factsOf(sum: number, size: number, nameLength: number): Buffer {
  return Buffer.concat([
    ...[VERSION, UTF8, STORED, 0, FIRST_DAY].map(short),
    ...[sum, size, size].map(word),
    short(nameLength),
  ]);
}

function centralHeader(facts: Buffer, name: Buffer, start: number): Buffer {
  const rest = [0, 0, 0, 0].map(short);
  return Buffer.concat([word(0x02014b50), short(VERSION), facts, ...rest, word(0), word(start), name]);
}

function endOf(count: number, length: number, start: number): Buffer {
  return Buffer.concat([
    word(0x06054b50),
    ...[0, 0, count, count].map(short),
    word(length),
    word(start),
    short(0),
  ]);
}

function short(value: number): Buffer {
  const bytes = Buffer.alloc(2);
  bytes.writeUInt16LE(value);
  return bytes;
}

function word(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32LE(value >>> 0);
  return bytes;
}

function tooLarge(path: string): Fault {
  return new Fault({
    kind: 'output',
    expected: 'a parcel of at most 4 GB in one ZIP',
    subject: path,
    received: 'a larger one',
    remedy: 'Leave --zip out: a folder holds any amount.',
  });
}
