import { hashUnit } from '../../field/hash.ts';
import { cellIndex } from '../../field/periodic.ts';
import type { Box } from '../../repeat/repeat.ts';
import { type Artwork, artworkShape, blankArtwork, plainArtwork } from '../artwork.ts';

/** What lies under an effect that reads the artwork: motifs, where a trial does not say otherwise. */
export type ProofArtwork = 'flat' | 'transparent' | 'black' | 'white' | 'plain' | DotPlace;

/** Where one dark dot stands on the plain ground: in the middle, or hard by an edge of the box without touching it. */
export const DOT_PLACES = {
  'one dot in the middle': [0.5, 0.5],
  'one dot on the left': [0, 0.5],
  'one dot on the right': [1, 0.5],
  'one dot at the top': [0.5, 0],
  'one dot at the bottom': [0.5, 1],
} as const;

export type DotPlace = keyof typeof DOT_PLACES;

/** mm, and the ink of such a dot. */
const DOT = { radius: 3, off: 3.6, ink: [0.02, 0.01, 0.02] } as const;

const GROUND = [0.75, 0.62, 0.4] as const;
const FLAT = [0.2, 0.05, 0.08] as const;
/** Linear light of the motifs in turn; the last is a hole in the painting. */
const INKS = [[0.5, 0.06, 0.03], [0.02, 0.12, 0.2], [0.1, 0.25, 0.05], undefined] as const;
/** mm from motif to motif, about, and of the largest one's radius. */
const APART = 30;
const LARGEST = 9;
/** As a share of the way from motif to motif. */
const RADIUS = 0.3;
const MOST_ACROSS = 40;

/** Artwork of the kit's own: discs at odd places that run over the edges of the box, one colour, or nothing at all. */
export function proofArtwork(box: Box, kind?: ProofArtwork): Artwork {
  if (kind === 'flat') return plainArtwork(box, FLAT);
  if (kind === 'black') return plainArtwork(box, [0, 0, 0]);
  if (kind === 'white') return plainArtwork(box, [1, 1, 1]);
  if (kind === 'transparent') return blankArtwork(artworkShape(box));
  const artwork = plainArtwork(box, GROUND);
  if (kind === 'plain') return artwork;
  if (kind) {
    const [x, y] = dotPlace(box, kind);
    addDisc(artwork, x, y, DOT.radius, DOT.ink);
    return artwork;
  }
  const across = countOf(box.width);
  const down = countOf(box.height);
  const [stepX, stepY] = [box.width / across, box.height / down];
  const most = Math.min(LARGEST, RADIUS * Math.min(stepX, stepY));
  for (let k = 0; k < across * down; k++) {
    const x = ((k % across) + 0.8 + 0.35 * hashUnit(1, k, 0)) * stepX;
    const y = (Math.floor(k / across) + 0.85 + 0.3 * hashUnit(2, k, 0)) * stepY;
    // Those that differ stand beside one another, however few there are.
    addDisc(artwork, x, y, most, INKS[k % INKS.length]);
    addDisc(artwork, x + 0.5 * stepX, y + 0.45 * stepY, 0.6 * most, INKS[(k + 3) % INKS.length]);
  }
  return artwork;
}

function dotPlace({ width, height }: Box, kind: DotPlace): readonly [number, number] {
  const [across, down] = DOT_PLACES[kind];
  const within = (share: number, length: number) =>
    Math.min(length - DOT.off, Math.max(DOT.off, share * length));
  return [within(across, width), within(down, height)];
}

function countOf(length: number): number {
  return Math.min(MOST_ACROSS, Math.max(1, Math.round(length / APART)));
}

/** A disc of one ink, or a hole, its edge softened over a cell. */
function addDisc(
  artwork: Artwork,
  x: number,
  y: number,
  radius: number,
  ink: readonly [number, number, number] | undefined,
): void {
  const { mmPerCellX, mmPerCellY, red, green, blue, alpha } = artwork;
  const last = Math.floor((y + radius) / mmPerCellY) + 1;
  for (let j = Math.floor((y - radius) / mmPerCellY) - 1; j <= last; j++) {
    const end = Math.floor((x + radius) / mmPerCellX) + 1;
    for (let i = Math.floor((x - radius) / mmPerCellX) - 1; i <= end; i++) {
      const far = Math.hypot((i + 0.5) * mmPerCellX - x, (j + 0.5) * mmPerCellY - y);
      const cover = Math.min(1, Math.max(0, 0.5 + (radius - far) / mmPerCellX));
      const at = cellIndex(artwork, i, j);
      if (!ink) {
        alpha[at] *= 1 - cover;
        continue;
      }
      red[at] += cover * (ink[0] - red[at]);
      green[at] += cover * (ink[1] - green[at]);
      blue[at] += cover * (ink[2] - blue[at]);
    }
  }
}
