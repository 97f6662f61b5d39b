import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { GlobalFonts } from '@napi-rs/canvas';

export type Weight = 400 | 500;

/** The face comes with the package (Jost, SIL Open Font License): a machine without fonts draws no letters at all. */
const FACE = 'Swatch lettering';
const SCRIPTS = ['latin', 'latin-ext'] as const;

/** A canvas font: `lettering(500, 24)` is 24 px high. Scripts that the face lacks are the machine's own. */
export function lettering(weight: Weight, height: number): string {
  const names = SCRIPTS.map((script) => {
    const name = `${FACE} ${script} ${weight}`;
    if (!GlobalFonts.has(name)) GlobalFonts.register(readFace(weight, script), name);
    return `"${name}"`;
  });
  return `${height}px ${names.join(', ')}, sans-serif`;
}

/** The font file, WOFF2. */
export function readFace(weight: Weight, script: (typeof SCRIPTS)[number] = 'latin'): Buffer {
  const file = `@fontsource/jost/files/jost-${script}-${weight}-normal.woff2`;
  return readFileSync(createRequire(import.meta.url).resolve(file));
}
