import { Fault } from '../fault.ts';

const MM_PER_UNIT = { mm: 1, cm: 10, in: 25.4 } as const;
/** mm in an inch. */
export const MM_PER_INCH = 25.4;

/** A unit that a length may be written in. */
export type LengthUnit = keyof typeof MM_PER_UNIT;

/** A width and a height. */
export interface Size {
  /** Across, mm. */
  readonly width: number;
  /** Down, mm. */
  readonly height: number;
}

/**
 * Reads a size such as `640x640mm`, `25.2x25.2in`, `64cm` (square) or `64cm x 30in`.
 *
 * @throws Fault (usage) where a number, a unit or one of the two sides is missing, or a side is not
 *   from 1 mm to 10 m.
 */
export function parseSize(text: string): Size {
  const sides = text
    .trim()
    .toLowerCase()
    .split(/\s*[x×]\s*/);
  const last = readLength(sides.at(-1) ?? '');
  if (sides.length > 2 || !last?.unit) throw unreadableSize(text);
  const first = sides.length === 2 ? readLength(sides[0]) : last;
  if (!first) throw unreadableSize(text);
  const size = {
    width: first.value * MM_PER_UNIT[first.unit ?? last.unit],
    height: last.value * MM_PER_UNIT[last.unit],
  };
  requireSize(size, '--size', 'Give the size of one tile, e.g. 640x640mm.');
  return size;
}

/** Sides of a tile in mm: what effects are made for and proven over. */
const SIDE = { least: 1, most: 10_000 } as const;

/**
 * Refuses a tile that nobody can make.
 *
 * @throws Fault (usage) for a tile with a side that is not from 1 mm to 10 m.
 */
export function requireSize(size: Size, subject: string, remedy: string): void {
  if ([size.width, size.height].every((side) => side >= SIDE.least && side <= SIDE.most)) return;
  throw new Fault({
    kind: 'usage',
    expected: 'sides from 1 mm to 10 m',
    subject,
    received: `${Number(size.width.toPrecision(6))} x ${Number(size.height.toPrecision(6))} mm`,
    remedy,
  });
}

/**
 * Reads a density such as `300`, `300dpi` or `118px/cm`.
 *
 * @returns Pixels per mm.
 * @throws Fault (usage) for anything else, and for densities outside 1..10,000 dpi.
 */
export function parseDensity(text: string): number {
  const match = /^(\d+(?:\.\d+)?|\.\d+)\s*(dpi|px\/cm|px\/mm)?$/.exec(text.trim().toLowerCase());
  const perMm = match ? Number(match[1]) / PIXEL_UNITS[(match[2] ?? 'dpi') as keyof typeof PIXEL_UNITS] : 0;
  if (perMm * MM_PER_INCH >= 1 && perMm * MM_PER_INCH <= 10_000) return perMm;
  throw new Fault({
    kind: 'usage',
    expected: 'a density from 1 to 10000 dpi',
    subject: 'the density',
    received: `"${text}"`,
    remedy: 'Write for example 300dpi or 118px/cm.',
  });
}

/** Divisors that turn a figure of the unit into pixels per mm. */
const PIXEL_UNITS = { dpi: MM_PER_INCH, 'px/cm': 10, 'px/mm': 1 } as const;

/** A density in dpi as people write it: four decimals at most. */
export function formatDensity(pixelsPerMm: number): string {
  return `${trimNumber(pixelsPerMm * MM_PER_INCH, 4)} dpi`;
}

/** A size in mm as people write it: `640 x 640 mm`. */
export function formatSize({ width, height }: Size): string {
  return `${trimNumber(width, 3)} x ${trimNumber(height, 3)} mm`;
}

/** A number with at most `places` decimals and no trailing zeros. */
export function trimNumber(value: number, places: number): string {
  return String(Number(value.toFixed(places)));
}

/** One length with its unit, such as `6.4 cm`, in mm; none where it is not written so. */
export function millimetresOf(text: string): number | undefined {
  const length = readLength(text.trim().toLowerCase());
  return length?.unit && length.value * MM_PER_UNIT[length.unit];
}

function readLength(text: string): { value: number; unit?: LengthUnit } | undefined {
  const match = /^(\d+(?:\.\d+)?|\.\d+)\s*(mm|cm|in)?$/.exec(text);
  if (!match || Number(match[1]) <= 0) return undefined;
  return { value: Number(match[1]), unit: match[2] as LengthUnit | undefined };
}

function unreadableSize(text: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'a width and a height with a unit (mm, cm or in)',
    subject: '--size',
    received: `"${text}"`,
    remedy: /^[\d.]+(\s*[x×]\s*[\d.]+)?$/.test(text.trim())
      ? `Add the unit: ${text.trim()}mm, ${text.trim()}cm or ${text.trim()}in.`
      : 'Write for example 640x640mm or 25.2x25.2in.',
  });
}
