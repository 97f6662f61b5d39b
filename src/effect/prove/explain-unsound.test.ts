import { expect, it } from 'vitest';
import ripple from '../../../tests/broken/ripple.ts';
import { type AnyEffect, type Band, defineEffect, type Setting } from '../index.ts';
import { openBench } from './bench.ts';
import { checkOf, runCheck } from './prove.ts';

/** The sound effect, with no number where `isWrong` says so of a pixel of a band or a setting. */
function wrongWhere(isWrong: (where: Band & Setting, column: number) => boolean): AnyEffect {
  return defineEffect({
    ...ripple,
    prepare: (setting) => ({ ...ripple.prepare(setting), where: { ...setting, random: undefined } }) as never,
    paint(model, band, layer) {
      ripple.paint(model, band, layer);
      const where = { ...(model as unknown as { where: Setting }).where, ...band };
      for (let k = 0; k < layer.shade.length; k++) {
        if (isWrong(where, k % band.width)) layer.shade[k] = Number.NaN;
      }
    },
  }) as unknown as AnyEffect;
}

async function sentenceOf(effect: AnyEffect): Promise<string> {
  const verdict = await runCheck(openBench(effect, { quick: true }), checkOf('finite'));
  return verdict.status === 'failed' ? verdict.failure.sentence : verdict.status;
}

it('says nothing of sound numbers', async () => {
  expect(await sentenceOf(wrongWhere(() => false))).toBe('passed');
});

it.each([
  [
    'fine pixels',
    ({ mmPerPixelX }) => mmPerPixelX < 0.05,
    /It comes of the density, 609.6 dpi: .*look in paint/,
  ],
  ['coarse pixels', ({ mmPerPixelX }) => mmPerPixelX > 1.5, /It comes of the density, 12.7 dpi: .*coarse/],
  ['a seed', ({ seed }) => seed === 'another', /It comes of seed "another": at seed prove all is well/],
  ['a tiny box', ({ box }) => box.width * box.height < 10, /It comes of the size, 3 x 2 mm: .*tiny box/],
  ['a high box', ({ box }) => box.height > 80, /It comes of the size, 3 x 90 mm: .*large box/],
  ['a short buffer', (_, column) => column >= 40, /It begins at column 40 of the band.*band\.width/],
  ['everything', () => true, /as in every pixel of the band\. Look for a division by zero/],
] as const satisfies readonly (readonly [string, Parameters<typeof wrongWhere>[0], RegExp])[])(
  'names what it comes of: %s',
  async (_, isWrong, words) => {
    expect(await sentenceOf(wrongWhere(isWrong))).toMatch(words);
  },
);
