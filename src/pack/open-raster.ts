import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { BlendMode } from '../colour/blend.ts';
import { writePictures } from '../picture/index.ts';
import { shrinkTo } from '../picture/shrink.ts';
import type { Stack } from './layers.ts';
import { writeZip, type ZipEntry } from './zip.ts';

/** OpenRaster, Layer Stack Specification: names of blend modes; there is none for exclusion. */
const OPERATORS: Readonly<Partial<Record<BlendMode, string>>> = {
  normal: 'svg:src-over',
  exclusion: undefined,
};
const THUMBNAIL_SIDE = 256;

/**
 * Writes a stack as OpenRaster (File Layout and Layer Stack Specifications, baseline): `mimetype` first and stored,
 * `stack.xml`, a PNG per layer, the merged picture and a thumbnail.
 *
 * @param scratch A folder for the pictures meanwhile.
 * @param density Pixels per mm; stated in whole dots per inch, for the standard knows no others.
 */
export async function writeOpenRaster(
  path: string,
  { width, height, layers, merged }: Stack,
  { scratch, pixelsPerMm }: { scratch: string; pixelsPerMm: { x: number; y: number } },
): Promise<void> {
  const thumbnail = await shrinkTo({ pixels: merged, width, height }, THUMBNAIL_SIDE);
  const pictures = [
    ...layers.map(({ pixels }, index) => ({ name: `data/layer${index}.png`, pixels, width, height })),
    { name: 'mergedimage.png', pixels: merged, width, height },
    { name: 'Thumbnails/thumbnail.png', ...thumbnail },
  ];
  const files = pictures.map((picture, index) => ({ ...picture, path: join(scratch, `layer-${index}.png`) }));
  try {
    for (const { path: file, name, ...picture } of files)
      await writePictures([{ path: file, picture }], { level: 4 });
    const entries: ZipEntry[] = [
      { name: 'mimetype', from: Buffer.from('image/openraster') },
      { name: 'stack.xml', from: Buffer.from(stackXml({ width, height, layers }, pixelsPerMm)) },
      ...files.map(({ name, path: from }) => ({ name, from })),
    ];
    await writeZip(path, entries);
  } finally {
    for (const file of files) await rm(file.path, { force: true });
  }
}

/** The topmost layer first. */
export function stackXml(
  { width, height, layers }: Pick<Stack, 'width' | 'height' | 'layers'>,
  { x, y }: { x: number; y: number },
): string {
  const lines = layers.map(({ name, mode }, index) => {
    const operator = OPERATORS[mode] ?? `svg:${mode}`;
    return `    <layer name="${escaped(name)}" src="data/layer${index}.png" x="0" y="0" opacity="1.0" visibility="visible" composite-op="${operator}"/>`;
  });
  const [xres, yres] = [x, y].map((perMm) => Math.max(1, Math.round(perMm * 25.4)));
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<image version="0.0.5" w="${width}" h="${height}" xres="${xres}" yres="${yres}">`,
    '  <stack>',
    ...lines.reverse(),
    '  </stack>',
    '</image>',
    '',
  ].join('\n');
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
