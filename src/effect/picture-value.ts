import { parseDensity, parseSize, type Size } from '../repeat/length.ts';
import type { ParameterSet } from './parameter.ts';

/** What the value of a picture parameter says. */
export interface PictureValue {
  /** Of the file. */
  readonly path: string;
  /** mm of the whole picture, where it is written behind the path. */
  readonly size?: Size;
  /** Pixels per mm across and down, where that is written instead. */
  readonly density?: number;
}

/** Letters that it may have: no system takes a longer path. */
const MOST_LETTERS = 4096;

/** `100x80mm`, `10cm`, and `100x80`, which `parseSize` then asks the unit of. */
const SIZE = /^[\d.]+\s*(?:(?:mm|cm|in)?\s*[x×]\s*[\d.]+\s*(?:mm|cm|in)?|mm|cm|in)$/i;
const DENSITY = /^[\d.]+\s*(?:dpi|px\/cm|px\/mm)$/i;

/**
 * Reads the value of a picture parameter: a path, behind which `@` may state the size of the whole picture
 * (`swatch.png@100x80mm`) or its density (`swatch.png@300dpi`), written as for `--size` and `--dpi`. What is
 * stated goes before what the file says. Any other `@` is of the file's name.
 *
 * @throws Fault (usage) for a size without a unit, and a size or a density that is out of range.
 */
export function readPictureValue(value: string): PictureValue {
  const at = value.lastIndexOf('@');
  const path = value.slice(0, Math.max(0, at)).trimEnd();
  const stated = value.slice(at + 1).trim();
  if (path === '') return { path: value };
  if (SIZE.test(stated)) return { path, size: parseSize(stated) };
  return DENSITY.test(stated) ? { path, density: parseDensity(stated) } : { path: value };
}

/** True for a text that can name a picture; whether there is one is told when it is read. */
export function isPictureValue(value: unknown): value is string {
  if (typeof value !== 'string' || value.trim() === '' || value.length > MOST_LETTERS) return false;
  if (value.includes('\0')) return false;
  try {
    readPictureValue(value);
    return true;
  } catch {
    return false;
  }
}

/** The value with its path made another by `change`; what is stated behind it stays as it was written. */
export function changePath(value: string, change: (path: string) => string): string {
  const { path } = readPictureValue(value);
  return change(path) + value.slice(path.length);
}

/** The names of the parameters that are pictures. */
export function pictureNames(parameters: ParameterSet): string[] {
  return Object.keys(parameters).filter((name) => parameters[name].kind === 'picture');
}

/** The name of the file, as it is said in a sentence. */
export function pictureName(value: string): string {
  return value.split(/[/\\]/).at(-1)!;
}

/** mm of a pixel across and down, where the value states it. */
export function statedPixel(
  { size, density }: PictureValue,
  px: { readonly width: number; readonly height: number },
): { readonly x: number; readonly y: number } | undefined {
  if (size) return { x: size.width / px.width, y: size.height / px.height };
  return density === undefined ? undefined : { x: 1 / density, y: 1 / density };
}
