import type { ReadAt } from './file-access.ts';
import type { Density } from './picture.ts';

const APP0 = 0xe0;
const APP2 = 0xe2;
const START_OF_SCAN = 0xda;
const UNIT_INCH = 1;
const UNIT_CM = 2;

/**
 * The density of a JFIF header (ITU-T T.871, 10.1); undefined where there is none or where it only
 * tells the pixel's shape.
 */
export async function jfifDensity(read: ReadAt): Promise<Density | undefined> {
  const head = await findSegment(read, APP0, 'JFIF\0');
  return head && densityOf(head);
}

/** True where a profile, or a part of one, is embedded (ICC.1:2010, B.4). */
export async function hasJpegProfile(read: ReadAt): Promise<boolean> {
  return (await findSegment(read, APP2, 'ICC_PROFILE\0')) !== undefined;
}

/** The first bytes of the first segment before the pixels that has this marker and begins with this word. */
async function findSegment(read: ReadAt, marker: number, word: string): Promise<Buffer | undefined> {
  let offset = 2;
  for (;;) {
    const head = await read(offset, 16);
    if (head.length < 4 || head[0] !== 0xff || head[1] === START_OF_SCAN) return undefined;
    if (head[1] === marker && head.toString('latin1', 4, 4 + word.length) === word) return head;
    offset += 2 + head.readUInt16BE(2);
  }
}

function densityOf(head: Buffer): Density | undefined {
  const perMm = { [UNIT_INCH]: 1 / 25.4, [UNIT_CM]: 1 / 10 }[head[11]];
  if (head.length < 16 || perMm === undefined) return undefined;
  return { x: head.readUInt16BE(12) * perMm, y: head.readUInt16BE(14) * perMm };
}
