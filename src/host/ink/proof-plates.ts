import { join } from 'node:path';
import { colourDifference } from '../../colour/difference.ts';
import type { Frame } from '../../colour/frame.ts';
import { labOfLinear } from '../../colour/lab.ts';
import { fullSample, linearTable } from '../../colour/samples.ts';
import {
  bytesOfLight,
  type DotField,
  groundColour,
  openDots,
  type Plates,
  plateBits,
  proofRow,
  type ShadeCard,
} from '../../ink/index.ts';
import { sha256OfFile, sharedSamples, writePicture } from '../../picture/index.ts';
import type { Size } from '../../repeat/length.ts';

/** What plates are held against. */
export interface ProofRequest {
  /** The tile that they were made of. */
  readonly picture: Frame;
  readonly card: ShadeCard;
  /** mm of one tile. */
  readonly size?: Size;
  readonly bits?: 1 | 8;
}

/** What is printed from the plates, beside the picture. */
export interface PlateProof {
  readonly file: string;
  readonly sha256: string;
  /** CIEDE2000 to the picture over the ground: of all places looked at. */
  readonly difference: { readonly mean: number; readonly p95: number; readonly worst: number };
  /** px: light is averaged over squares of this side before it is compared; 1 for 8-bit plates. */
  readonly averagedOver: number;
  /** mm: from here an eye that tells one minute of arc sees such a square as a point; where the size is known. */
  readonly seenFrom?: number;
}

export const PROOF_FILE = 'proof.png';
/** Rows of dots are averaged over squares of this side, px. */
const DOT_SQUARE = 8;
/** Places that are compared, at most. */
const MOST_PLACES = 250_000;
const MINUTE_OF_ARC = Math.PI / 180 / 60;

/** Puts a tile together again from its plates, writes it as a picture and tells how far off it is. */
export async function proofPlates(
  folder: string,
  request: ProofRequest,
  plates: Plates,
  field: DotField | undefined,
): Promise<PlateProof> {
  const { picture, card, size, bits = 8 } = request;
  const { width, height } = plates;
  const pixels = sharedSamples(4 * width * height, 8) as Uint8Array;
  const side = Math.min(bits === 1 ? DOT_SQUARE : 1, width, height);
  const stride = Math.max(1, Math.ceil((Math.floor(width / side) * Math.floor(height / side)) / MOST_PLACES));
  const comparing = comparer(request, side, stride);
  const dots = field && openDots(field);
  const light = new Float32Array(3 * width);
  for (let y = 0; y < height; y++) {
    const row = bits === 1 ? standingRow(plates, plateBits(plates, y, 1, dots)) : plates;
    proofRow(row, card, bits === 1 ? 0 : y, light);
    bytesOfLight(light, pixels.subarray(4 * y * width, 4 * (y + 1) * width));
    comparing.add(y, light);
  }
  const path = join(folder, PROOF_FILE);
  const pixelsPerMm = size && { x: width / size.width, y: height / size.height };
  await writePicture(path, { pixels, width: picture.width, height: picture.height, pixelsPerMm });
  return {
    file: PROOF_FILE,
    sha256: await sha256OfFile(path),
    difference: comparing.result(),
    averagedOver: side,
    seenFrom: size && side > 1 ? Math.round((side * size.width) / width / MINUTE_OF_ARC) : undefined,
  };
}

/** One row of dots as areas again. */
function standingRow(plates: Plates, rows: readonly Uint8Array[]): Plates {
  const planes = rows.map((bits) =>
    Uint8Array.from({ length: plates.width }, (_, x) => (bits[x >> 3] & (0x80 >> (x & 7)) ? 255 : 0)),
  );
  return { ...plates, height: 1, planes };
}

/** Compares squares of rows as they come. */
function comparer({ picture, card }: ProofRequest, side: number, stride: number) {
  const { pixels, width } = picture;
  const linear = linearTable(pixels);
  const full = fullSample(pixels);
  const paper = groundColour(card);
  const columns = Math.floor(width / side);
  const sums = new Float64Array(6 * columns);
  const found: number[] = [];
  let place = 0;
  return {
    add(y: number, light: Float32Array) {
      for (let x = 0; x < columns * side; x++) {
        const at = 4 * (y * width + x);
        const to = 6 * Math.floor(x / side);
        const cover = pixels[at + 3] / full;
        for (let channel = 0; channel < 3; channel++) {
          const sample = pixels[at + channel] * cover + (paper[channel] / 255) * full * (1 - cover);
          sums[to + channel] += linear[Math.round(sample)];
          sums[to + 3 + channel] += light[3 * x + channel];
        }
      }
      if ((y + 1) % side > 0) return;
      for (let column = 0; column < columns; column++, place++) {
        if (place % stride > 0) continue;
        const [r, g, b, pr, pg, pb] = sums.subarray(6 * column, 6 * column + 6).map((v) => v / side / side);
        found.push(colourDifference(labOfLinear(r, g, b), labOfLinear(pr, pg, pb)));
      }
      sums.fill(0);
    },
    result() {
      const sorted = Float64Array.from(found).sort();
      const round = (value: number) => Number(value.toFixed(3));
      return {
        mean: round(sorted.reduce((sum, value) => sum + value, 0) / sorted.length),
        p95: round(sorted[Math.floor(0.95 * (sorted.length - 1))]),
        worst: round(sorted[sorted.length - 1]),
      };
    },
  };
}
