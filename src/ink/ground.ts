import type { Frame, Samples } from '../colour/frame.ts';
import type { ShadeCard } from './card.ts';
import { blankMixture, MIXED_INKS } from './mixture.ts';
import { createUnmixer } from './unmix.ts';

/** Pixels to a side that are looked at. */
const SIDE = 360;

/**
 * Which ink of a card is the ground of a picture: of those with much area the one that holds together over the whole
 * repeat, as what lies behind does, and motifs do not.
 *
 * @returns Its place in the card.
 */
export function groundOf(picture: Frame, card: ShadeCard): number {
  const { labels, width, height } = labelled(picture, card);
  const areas = new Float64Array(card.inks.length);
  for (const label of labels) areas[label] += 1 / labels.length;
  const spans = spansOf(labels, width, height, card.inks.length);
  let [best, most] = [0, -1];
  for (let ink = 0; ink < areas.length; ink++) {
    const score = areas[ink] * (0.2 + spans[ink]);
    if (score > most) [best, most] = [ink, score];
  }
  return best;
}

/** Of each of some pixels the ink that it has most of. */
function labelled(picture: Frame, card: ShadeCard) {
  const [width, height] = [Math.min(SIDE, picture.width), Math.min(SIDE, picture.height)];
  const unmixer = createUnmixer(card);
  const deep = picture.pixels.BYTES_PER_ELEMENT === 2;
  const row: Samples = deep ? new Uint16Array(4 * width) : new Uint8Array(4 * width);
  const mixture = blankMixture(width);
  const labels = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    const line = Math.floor(((y + 0.5) * picture.height) / height) * picture.width;
    for (let x = 0; x < width; x++) {
      const from = 4 * (line + Math.floor(((x + 0.5) * picture.width) / width));
      for (let channel = 0; channel < 4; channel++) row[4 * x + channel] = picture.pixels[from + channel];
    }
    unmixer.unmix(row, mixture);
    for (let x = 0; x < width; x++) labels[y * width + x] = mixture.inks[MIXED_INKS * x];
  }
  return { labels, width, height };
}

/** Of each ink the part of all columns times that of all rows that its largest piece reaches, over the edges too. */
function spansOf(labels: Uint8Array, width: number, height: number, inks: number): Float64Array {
  const spans = new Float64Array(inks);
  const seen = new Uint8Array(labels.length);
  const stack = new Int32Array(labels.length);
  const largest = new Float64Array(inks);
  for (let start = 0; start < labels.length; start++) {
    if (seen[start]) continue;
    const columns = new Uint8Array(width);
    const rows = new Uint8Array(height);
    let [depth, size] = [0, 0];
    stack[depth++] = start;
    seen[start] = 1;
    while (depth > 0) {
      const at = stack[--depth];
      const [x, y] = [at % width, Math.floor(at / width)];
      size++;
      columns[x] = 1;
      rows[y] = 1;
      for (const next of [
        y * width + ((x + 1) % width),
        y * width + ((x + width - 1) % width),
        ((y + 1) % height) * width + x,
        ((y + height - 1) % height) * width + x,
      ]) {
        if (seen[next] || labels[next] !== labels[start]) continue;
        seen[next] = 1;
        stack[depth++] = next;
      }
    }
    if (size <= largest[labels[start]]) continue;
    largest[labels[start]] = size;
    const reached = (all: Uint8Array) => all.reduce((sum, one) => sum + one, 0) / all.length;
    spans[labels[start]] = reached(columns) * reached(rows);
  }
  return spans;
}
