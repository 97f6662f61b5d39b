/** The formats that are read. */
export type PictureFormat = 'PNG' | 'JPEG' | 'WebP' | 'TIFF';

interface Signature<Kind> {
  readonly kind: Kind;
  /** Bytes as Latin-1, at `at`. */
  readonly text: string;
  readonly at?: number;
}

const READ: readonly Signature<PictureFormat>[] = [
  { kind: 'PNG', text: '\x89PNG\r\n\x1a\n' },
  { kind: 'JPEG', text: '\xff\xd8\xff' },
  { kind: 'WebP', text: 'WEBP', at: 8 },
  { kind: 'TIFF', text: 'II*\0' },
  { kind: 'TIFF', text: 'MM\0*' },
  // BigTIFF, for files beyond 4 GB.
  { kind: 'TIFF', text: 'II+\0' },
  { kind: 'TIFF', text: 'MM\0+' },
];

/** Known well enough to be called by name when they are refused. */
const REFUSED: readonly Signature<string>[] = [
  { kind: 'a GIF picture', text: 'GIF8' },
  { kind: 'a BMP picture', text: 'BM' },
  { kind: 'an HEIF or AVIF picture', text: 'ftyp', at: 4 },
  { kind: 'a JPEG 2000 picture', text: 'jP  ', at: 4 },
  { kind: 'a JPEG XL picture', text: '\xff\x0a' },
  { kind: 'a JPEG XL picture', text: 'JXL ', at: 4 },
  { kind: 'an OpenEXR picture', text: '\x76\x2f\x31\x01' },
  { kind: 'a PDF document', text: '%PDF' },
  { kind: 'a PostScript document', text: '%!PS' },
  { kind: 'a ZIP archive', text: 'PK\x03\x04' },
];

/** How many bytes from the start of a file tell its kind. */
export const HEAD_BYTES = 256;

/** The format of a file by its first bytes; its name does not count. */
export function formatOf(head: Buffer): PictureFormat | undefined {
  return READ.find((signature) => bears(head, signature))?.kind;
}

/** What a file is that is not read, as far as its first bytes tell. */
export function describeOther(head: Buffer): string {
  const known = REFUSED.find((signature) => bears(head, signature));
  if (known) return known.kind;
  const start = head.toString('latin1').trimStart();
  if (start.startsWith('<') && /<svg|<!DOCTYPE svg/i.test(start)) return 'an SVG drawing';
  return isText(head) ? 'a text file' : 'a file of another kind';
}

function bears(head: Buffer, { text, at = 0 }: Signature<string>): boolean {
  return head.toString('latin1', at, at + text.length) === text;
}

function isText(head: Buffer): boolean {
  if (!head.every((byte) => byte >= 32 || (byte >= 9 && byte <= 13))) return false;
  try {
    // The last letter may be cut.
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true });
    return true;
  } catch {
    return false;
  }
}
