import { type Canvas, createCanvas } from '@napi-rs/canvas';
import { randomStream } from '../../src/field/index.ts';
import type { Picture } from '../artwork/tile.ts';

/** How it lay on the glass. */
export interface Lie {
  /** deg, clockwise. */
  readonly crooked: number;
  /** How much darker the far corner is than the near one, 0..1. */
  readonly falling: number;
  /** px of the painting that are cut off all round, so that no table shows. */
  readonly cut: number;
}

/** A painting as a hasty scan shows it: laid down crooked, lit from one side, with the grain of its paper. */
export function scanned(painting: Canvas, { crooked, falling, cut }: Lie): Picture {
  const width = painting.width - 2 * cut;
  const height = painting.height - 2 * cut;
  const context = createCanvas(width, height).getContext('2d');
  context.translate(width / 2, height / 2);
  context.rotate((crooked * Math.PI) / 180);
  context.drawImage(painting, -painting.width / 2, -painting.height / 2);
  const { data } = context.getImageData(0, 0, width, height);
  const pixels = new Uint8Array(data.buffer);
  const random = randomStream('scan', 'paper');
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at += 4) {
      const [u, v] = [x / width, y / height];
      const light = 1 - falling * (0.65 * u + 0.35 * v) ** 1.4 - 0.35 * falling * (1 - v) ** 6;
      const grain = random.between(-2.2, 2.2);
      for (let channel = 0; channel < 3; channel++)
        pixels[at + channel] = Math.max(0, Math.min(255, Math.round(pixels[at + channel] * light + grain)));
      pixels[at + 3] = 255;
    }
  }
  return { pixels, width, height };
}
