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

/**
 * A JFIF header, without a thumbnail (ITU-T T.871, 10.1). It counts whole dots per inch or per cm, so the
 * unit that comes nearer is taken; without a density it says that pixels are square.
 */
export function jfifSegment(density: Density | undefined): Buffer {
  const word = Buffer.from('JFIF\0\x01\x02', 'latin1');
  const segment = Buffer.concat([Buffer.from([0xff, APP0, 0, 16]), word, Buffer.from([0, 0, 1, 0, 1, 0, 0])]);
  if (!density) return segment;
  const [best] = [
    { unit: UNIT_INCH, perMm: 25.4 },
    { unit: UNIT_CM, perMm: 10 },
  ]
    .map(({ unit, perMm }) => ({ unit, figures: [density.x * perMm, density.y * perMm] }))
    .filter(({ figures }) => figures.every((figure) => figure >= 1 && figure <= 0xff_ff))
    .sort((a, b) => roundingOf(a.figures) - roundingOf(b.figures));
  if (!best) return segment;
  segment[11] = best.unit;
  segment.writeUInt16BE(Math.round(best.figures[0]), 12);
  segment.writeUInt16BE(Math.round(best.figures[1]), 14);
  return segment;
}

/** The most that rounding changes of a figure, as a share; what is below a millionth counts as nothing. */
function roundingOf(figures: readonly number[]): number {
  const shares = figures.map((figure) => Math.abs(Math.round(figure) - figure) / figure);
  return Math.round(Math.max(...shares) * 1e6);
}

/** The segment that embeds a profile (ICC.1:2010, B.4); ours fits into one. */
export function profileSegment(profile: Buffer): Buffer {
  const word = Buffer.from('ICC_PROFILE\0\x01\x01', 'latin1');
  const head = Buffer.from([0xff, APP2, 0, 0]);
  head.writeUInt16BE(2 + word.length + profile.length, 2);
  return Buffer.concat([head, word, profile]);
}
