import { describe, expect, it } from 'vitest';
import { gridOfPixels, parseLayout } from '../../repeat/index.ts';
import { PictureRoom } from './embed.ts';
import type { SmallPicture } from './small-picture.ts';
import type { Made } from './swatch.ts';

const SIDE = 200;

function made(): Made {
  const picture = { widthPx: SIDE, heightPx: SIDE, widthMm: 100, heightMm: 100, layout: 'straight' };
  return {
    path: '',
    picture: { ...picture, bytes: 0, sha256: '', dpi: 50.8 },
    seams: { closes: true, summary: '' },
    notes: [],
  };
}

/** The hardest to keep small: no two pixels alike. */
function noise(): SmallPicture {
  const pixels = Uint8Array.from({ length: SIDE * SIDE * 3 }, (_, i) => ((i * 2654435761) >>> 13) & 255);
  return {
    pixels,
    grid: gridOfPixels({ layout: parseLayout('straight'), width: 100, height: 100 }, SIDE, SIDE),
  };
}

describe('room for pictures', () => {
  it('is kept to by pictures that are larger than they seemed', async () => {
    const room = new PictureRoom(12_000, 4);
    for (let i = 0; i < 4; i++) {
      const text = await room.take(noise(), made());
      expect(text.length).toBeGreaterThan(1000);
      // "RIFF" and "WEBP" as RFC 9649 has them.
      expect(Buffer.from(text, 'base64').toString('latin1')).toMatch(/^RIFF....WEBP/s);
    }
    expect(room.used).toBeLessThanOrEqual(12_000);
  });
  it('that one leaves goes to the others', async () => {
    const room = new PictureRoom(12_000, 2);
    const before = room.densityFor(made());
    room.pass();
    expect(room.densityFor(made())).toBeGreaterThan(before);
  });
  it('that is ample leaves a picture as it is', () => {
    expect(new PictureRoom(50e6, 1).densityFor(made())).toBe(2);
  });
});
