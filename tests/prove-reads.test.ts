/** The kit and effects that raise a surface or read what is below. */
import { type AnyEffect, API_VERSION, type Band, homeParts, type Lattice } from 'tenter';
import { describe, expect, it } from 'vitest';
import { proveEffect } from '../src/effect/prove/index.ts';

type Look = (relief: Float32Array, pixel: number, band: Band) => number;

/** Raises what it finds below, as `look` sees it, and a wave of its own. */
function readerOf(
  look: Look,
  planes = ['relief', 'load'],
  lattice = (box: { lattice: Lattice }) => box.lattice,
): AnyEffect {
  const effect = {
    apiVersion: API_VERSION,
    name: 'reader',
    version: '1.0.0',
    summary: 'Reads.',
    parameters: {},
    planes,
    reads: ['relief'],
    prepare: ({ box, random }: { box: { lattice: Lattice }; random(name: string): { next(): number } }) => ({
      lattice: lattice(box),
      phase: random('phase').next(),
    }),
    paint(
      model: { lattice: Lattice; phase: number },
      band: Band,
      layer: { relief: Float32Array; load: Float32Array },
      below: { relief: Float32Array },
    ) {
      const { ax, ay, bx, by } = model.lattice;
      // Waves of about 30 mm: fewer would be longer in a larger box.
      const [along, down] = [ax, by].map((side) => Math.max(1, Math.round(side / 30)));
      for (const { x, y, width, height, at } of homeParts(band, model.lattice)) {
        for (let j = 0; j < height; j++) {
          for (let i = 0; i < width; i++) {
            const k = at + j * band.width + i;
            const [mmX, mmY] = [(x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY];
            const turns =
              (along * (by * mmX - bx * mmY) + down * (ax * mmY - ay * mmX)) / (ax * by - ay * bx);
            layer.relief[k] = 0.2 * Math.cos(2 * Math.PI * (turns + model.phase));
            layer.load[k] = 1 + look(below.relief, k, band);
          }
        }
      }
    },
  };
  return effect as unknown as AnyEffect;
}

async function failuresOf(effect: AnyEffect): Promise<string[]> {
  const { results } = await proveEffect(effect, { quick: true });
  return results.flatMap((result) =>
    result.status === 'failed'
      ? [`${result.check}: ${JSON.stringify({ ...result.failure, picture: 0 })}`]
      : [],
  );
}

describe('an effect that reads', () => {
  it('and raises is proven where it looks at its own place alone', async () => {
    expect(await failuresOf(readerOf((relief, k) => 5 * relief[k]))).toEqual([]);
  });
  it.each<[string, Look, string]>([
    ['the pixel before', (relief, k) => 5 * (relief[k - 1] ?? 0), 'bands'],
    ['where the band begins', (relief) => 5 * relief[0], 'bands'],
  ])('is caught that looks at %s', async (_, look, check) => {
    expect((await failuresOf(readerOf(look))).join()).toContain(`${check}:`);
  });
  it('is tried with nothing below as well', async () => {
    const found = await failuresOf(
      readerOf((relief, k) => (relief[k] === 0 && relief[k + 1] === 0 ? Number.NaN : 0.1)),
    );
    expect(found.join()).toContain('"below":"nothing"');
  });
});

describe('a relief', () => {
  it('of metres is no relief', async () => {
    const effect = readerOf(() => 0);
    const { paint } = effect;
    const high = {
      ...effect,
      paint(model: unknown, band: Band, layer: { relief: Float32Array }, below: never) {
        paint(model, band, layer as never, below);
        for (let k = 0; k < layer.relief.length; k++) layer.relief[k] *= 200;
      },
    };
    expect((await failuresOf(high as unknown as AnyEffect)).join()).toContain('finite mm from -20 to 20');
  });
  it('that does not close is caught', async () => {
    const straight = ({ lattice }: { lattice: Lattice }) => ({ ...lattice, ay: 0, bx: 0 });
    expect((await failuresOf(readerOf(() => 0, undefined, straight))).join()).toContain('periodic:');
  });
});
