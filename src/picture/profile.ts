import { encodeSrgb } from '../colour/index.ts';
import { type Curve, curveAt } from './profile-curve.ts';

/**
 * An ICC profile (ICC.1:2010), as far as its colours can be computed from curves and a matrix.
 * `table` profiles (presses, mostly) are left to the picture engine.
 */
export type Profile =
  | { readonly kind: 'srgb'; readonly name: string }
  | {
      readonly kind: 'matrix';
      readonly name: string;
      /** From sample 0..1 to linear light 0..1: red, green, blue. */
      readonly curves: readonly [Curve, Curve, Curve];
      /** Row by row, from the profile's linear light to that of sRGB. */
      readonly toSrgb: readonly number[];
    }
  | { readonly kind: 'grey'; readonly name: string; readonly curve: Curve }
  | { readonly kind: 'table'; readonly name: string; readonly space: ColourSpace }
  | { readonly kind: 'broken'; readonly name?: string };

export type ColourSpace = 'RGB' | 'GRAY' | 'CMYK';

interface Tag {
  readonly offset: number;
  readonly size: number;
}

const HEADER_BYTES = 128;
const TAG_BYTES = 12;
const MAX_TAGS = 200;
const SPACES: readonly string[] = ['RGB', 'GRAY', 'CMYK'] satisfies ColourSpace[];
/** Fixed point of ICC.1:2010, 4.6 (s15Fixed16Number). */
const FIXED_ONE = 65_536;

/**
 * XYZ under the D50 of ICC.1:2010 to linear sRGB: the primaries and white of IEC 61966-2-1,
 * adapted by the Bradford matrix of ICC.1:2010, Annex E, inverted.
 */
const SRGB_OF_XYZ = [
  [3.134136, -1.617386, -0.490662],
  [-0.978796, 1.916255, 0.033443],
  [0.071955, -0.228977, 1.405386],
];

/** White further off than this belongs to a profile that is not relative to D50, as profiles must be. */
const WHITE_TOLERANCE = 0.02;
/** Matrix and curve this near to sRGB differ from it by less than one level of 8 bit: rounding of the file. */
const SRGB_MATRIX_TOLERANCE = 0.003;
const SRGB_CURVE_TOLERANCE = 0.003;

/** Reads a profile. */
export function profileOf(bytes: Buffer): Profile {
  const tags = tagsOf(bytes);
  const space = bytes.toString('latin1', 16, 20).trim();
  if (!tags || !SPACES.includes(space)) return { kind: 'broken', name: 'unnamed' };
  const name = nameOf(bytes, tags.get('desc'));
  // Where a profile has tables they come first (ICC.1:2010, 8.2).
  if (tags.has('A2B0')) return { kind: 'table', name, space: space as ColourSpace };
  const byCurves = { GRAY: greyOf, RGB: matrixOf }[space];
  return byCurves?.(bytes, tags, name) ?? { kind: 'broken', name };
}

function tagsOf(bytes: Buffer): Map<string, Tag> | undefined {
  if (bytes.length < HEADER_BYTES + 4 || bytes.toString('latin1', 36, 40) !== 'acsp') return undefined;
  const count = bytes.readUInt32BE(HEADER_BYTES);
  const start = HEADER_BYTES + 4;
  if (count > MAX_TAGS || start + count * TAG_BYTES > bytes.length) return undefined;
  const tags = new Map<string, Tag>();
  for (let at = start; at < start + count * TAG_BYTES; at += TAG_BYTES) {
    const tag = { offset: bytes.readUInt32BE(at + 4), size: bytes.readUInt32BE(at + 8) };
    if (tag.offset + tag.size > bytes.length) return undefined;
    tags.set(bytes.toString('latin1', at, at + 4), tag);
  }
  return tags;
}

/** The description: plain text up to version 2, UTF-16 from version 4. */
function nameOf(bytes: Buffer, tag: Tag | undefined): string {
  if (!tag || tag.size < 16) return 'unnamed';
  const type = bytes.toString('latin1', tag.offset, tag.offset + 4);
  const data = bytes.subarray(tag.offset, tag.offset + tag.size);
  const text = type === 'mluc' ? firstName(data) : data.toString('latin1', 12, 12 + data.readUInt32BE(8));
  const printable = text.replace(/[^\x20-\x7e\xa0-\uffff]/g, '').trim();
  return printable || 'unnamed';
}

function firstName(data: Buffer): string {
  if (data.length < 28) return '';
  const [length, offset] = [data.readUInt32BE(20), data.readUInt32BE(24)];
  return new TextDecoder('utf-16be').decode(data.subarray(offset, offset + length));
}

function greyOf(bytes: Buffer, tags: Map<string, Tag>, name: string): Profile | undefined {
  const curve = curveOf(bytes, tags.get('kTRC'));
  if (!curve) return undefined;
  const lightness = bytes.toString('latin1', 20, 24) === 'Lab ';
  return { kind: 'grey', name, curve: lightness ? (sample) => lightOfLightness(curve(sample)) : curve };
}

/** L* / 100 to Y (CIE 15, inverted). */
function lightOfLightness(lightness: number): number {
  const L = lightness * 100;
  return L > 8 ? ((L + 16) / 116) ** 3 : (L * 27) / 24_389;
}

function matrixOf(bytes: Buffer, tags: Map<string, Tag>, name: string): Profile | undefined {
  const [red, green, blue] = ['rTRC', 'gTRC', 'bTRC'].map((key) => curveOf(bytes, tags.get(key)));
  const columns = ['rXYZ', 'gXYZ', 'bXYZ'].map((key) => colorantOf(bytes, tags.get(key)));
  if (!red || !green || !blue) return undefined;
  const rows = SRGB_OF_XYZ.map((row) =>
    columns.map((column) =>
      column ? row[0] * column[0] + row[1] * column[1] + row[2] * column[2] : Number.NaN,
    ),
  );
  const whites = rows.map(([r, g, b]) => r + g + b);
  if (!whites.every((white) => Math.abs(white - 1) <= WHITE_TOLERANCE)) return undefined;
  // White is white to the last bit; what is missing is the rounding of the file's numbers.
  const toSrgb = rows.flatMap((row, index) => row.map((part) => part / whites[index]));
  const curves: [Curve, Curve, Curve] = [red, green, blue];
  return isSrgb(toSrgb, curves) ? { kind: 'srgb', name } : { kind: 'matrix', name, curves, toSrgb };
}

function colorantOf(bytes: Buffer, tag: Tag | undefined): [number, number, number] | undefined {
  if (!tag || tag.size < 20 || bytes.toString('latin1', tag.offset, tag.offset + 4) !== 'XYZ ')
    return undefined;
  const part = (index: number) => bytes.readInt32BE(tag.offset + 8 + 4 * index) / FIXED_ONE;
  return [part(0), part(1), part(2)];
}

function curveOf(bytes: Buffer, tag: Tag | undefined): Curve | undefined {
  return tag && curveAt(bytes.subarray(tag.offset, tag.offset + tag.size));
}

function isSrgb(toSrgb: readonly number[], curves: readonly Curve[]): boolean {
  const near = toSrgb.every(
    (part, index) => Math.abs(part - (index % 4 === 0 ? 1 : 0)) < SRGB_MATRIX_TOLERANCE,
  );
  return near && curves.every(isSrgbCurve);
}

function isSrgbCurve(curve: Curve): boolean {
  return Array.from({ length: 256 }, (_, index) => index / 255).every(
    (sample) => Math.abs(encodeSrgb(curve(sample)) - sample) < SRGB_CURVE_TOLERANCE,
  );
}
