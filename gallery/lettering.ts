import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { GlobalFonts } from '@napi-rs/canvas';

/**
 * The face that sheets are lettered in. A machine without fonts draws no letters at all, and says nothing,
 * and one with other fonts draws other pictures: so the face comes with the package (Jost, SIL Open Font License).
 */
const FACE = 'Sheet lettering';
const FILES = { 400: 'jost-latin-400-normal.woff2', 500: 'jost-latin-500-normal.woff2' } as const;

export type Weight = keyof typeof FILES;

/** A canvas font: `lettering(500, 24)` is 24 px high. */
export function lettering(weight: Weight, height: number): string {
  const name = `${FACE} ${weight}`;
  if (!GlobalFonts.has(name)) {
    const file = createRequire(import.meta.url).resolve(`@fontsource/jost/files/${FILES[weight]}`);
    GlobalFonts.register(readFileSync(file), name);
  }
  return `${height}px "${name}"`;
}
