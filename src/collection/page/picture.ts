import type { Cloth, PageData } from './data.ts';

/** A picture of the page, still packed. */
export interface Packed {
  readonly cloth: Cloth;
  /** Of the element in which it stands as text. */
  readonly id: string;
}

/** The picture of a swatch, or that of its artwork; none where the page has none. */
export function packedOf(
  { swatches, originals }: PageData,
  index: number,
  isBare: boolean,
): Packed | undefined {
  if (!isBare) return packed(swatches[index].cloth, `picture-${index}`);
  const number = swatches[index].original;
  return number === undefined ? undefined : packed(originals[number].cloth, `original-${number}`);
}

function packed(cloth: Cloth | undefined, id: string): Packed | undefined {
  return cloth && { cloth, id };
}

/** Decodes a picture; the caller closes it. It stands in the page as text until then. */
export async function openPicture({ id }: Packed): Promise<ImageBitmap> {
  const text = document.getElementById(id)?.textContent ?? '';
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  return createImageBitmap(new Blob([bytes], { type: 'image/webp' }));
}
