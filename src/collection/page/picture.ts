/** Decodes the picture of a swatch; the caller closes it. It stands in the page as text until then. */
export async function openPicture(index: number): Promise<ImageBitmap> {
  const text = document.getElementById(`picture-${index}`)?.textContent ?? '';
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  return createImageBitmap(new Blob([bytes], { type: 'image/webp' }));
}
