import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { API_VERSION } from '../src/effect/index.ts';
import { pngChunk, pngFile } from '../src/picture/testing/png-file.ts';

/** A quick effect that lays the colours of a picture in stripes from side to side, and reports what it was given. */
export const DYER = `
import { defineEffect, picture, toggle } from 'tenter';
export default defineEffect({
  apiVersion: ${API_VERSION}, name: 'dyer', version: '1.0.0', summary: 'The colours of a picture.',
  sentences: ['Dyed as {cloth} is.'],
  parameters: {
    cloth: picture({ default: 'own.png', help: 'The picture whose colours are laid.' }),
    spoil: toggle({ default: false, help: 'Breaks as it is told.' }),
  },
  planes: ['tint'],
  prepare({ box, picture, parameters, report }) {
    const { width, height, mmPerPixelX, mmPerPixelY, samples } = picture('cloth');
    if (parameters.spoil) picture('colth');
    report({ name: 'across', value: width * mmPerPixelX, unit: 'mm' });
    report({ name: 'down', value: height * mmPerPixelY, unit: 'mm' });
    report({ name: 'first', value: Array.from(samples.subarray(0, 4)).join(' ') });
    report({ name: 'shared', value: String(samples.buffer instanceof SharedArrayBuffer) });
    report({ name: 'same', value: String(picture('cloth') === picture('cloth')) });
    report({ name: 'frozen', value: String(Object.isFrozen(picture('cloth'))) });
    return { samples, width, height: box.height };
  },
  paint({ samples, width, height }, band, layer) {
    for (let row = 0, k = 0; row < band.height; row++) for (let column = 0; column < band.width; column++, k++) {
      const y = ((band.y + row + 0.5) * band.mmPerPixelY) / height;
      const from = 4 * Math.min(width - 1, Math.floor((y - Math.floor(y)) * width));
      for (let c = 0; c < 4; c++) layer.tint[4 * k + c] = samples[from + c] / 65535;
    }
  },
});`;

/** Writes the effect with the picture that it brings along, 4 x 2 px of red at 254 dpi. @returns Its file. */
export async function writeDyer(folder: string): Promise<string> {
  const own = join(folder, 'dyer');
  mkdirSync(own, { recursive: true });
  writeFileSync(join(own, 'index.ts'), DYER);
  await writeSwatch(join(own, 'own.png'), '#ff0000');
  return own;
}

/** Writes a plain picture of 4 x 2 px. @param dpi Null to state no density. */
export async function writeSwatch(path: string, colour: string, dpi: number | null = 254): Promise<string> {
  const pixel = Buffer.from(colour.slice(1), 'hex');
  const rows = Buffer.concat(Array.from({ length: 8 }, () => pixel));
  const chunks = dpi === null ? [] : [physChunk(dpi)];
  writeFileSync(path, pngFile({ width: 4, height: 2, depth: 8, colour: 2, rows, chunks }));
  return path;
}

/** Pixels per metre, both ways (Portable Network Graphics Specification, 11.3.4.3). */
function physChunk(dpi: number): Buffer {
  const data = Buffer.alloc(9);
  data.writeUInt32BE(Math.round(dpi / 0.0254), 0);
  data.writeUInt32BE(Math.round(dpi / 0.0254), 4);
  data[8] = 1;
  return pngChunk('pHYs', data);
}
