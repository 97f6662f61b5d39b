import { describe, expect, it } from 'vitest';
import { choice, colour, numbers, numeric, palette, toggle } from './parameter.ts';
import { humanise, sentencesOf } from './sentence.ts';

const parameters = {
  weave: choice({ options: ['plain', 'twill'], default: 'plain', help: 'The weave.' }),
  warpSett: numeric({ unit: 'per cm', min: 4, max: 40, default: 12, help: 'Ends.' }),
  side: choice({ options: ['on', 'off'], default: 'on', help: 'Which way.' }),
  hasKnots: toggle({ default: true, help: 'Knots or none.' }),
  widths: numbers({ unit: 'mm', min: 1, max: 9, least: 1, most: 3, default: [2, 3], help: 'How wide.' }),
  yarns: palette({ least: 1, most: 3, default: ['#ffffff'], help: 'Yarns.' }),
  tint: colour({ default: '#d8cdb4', help: 'The tint.' }),
};

describe('the sentences of an effect', () => {
  it('are its own, with slots where the values stand, then a plain line for each parameter left out', () => {
    const sentences = [
      'A {weave} weave of {warpSett}.',
      'Paint is {side: laid on | taken off}, {hasKnots: knotted|smooth}',
    ];
    expect(sentencesOf({ sentences, parameters })).toEqual([
      { parts: ['A ', { parameter: 'weave' }, ' weave of ', { parameter: 'warpSett' }, '.'], isRest: false },
      {
        parts: [
          'Paint is ',
          { parameter: 'side', words: { on: 'laid on', off: 'taken off' } },
          ', ',
          { parameter: 'hasKnots', on: 'knotted', off: 'smooth' },
        ],
        isRest: false,
      },
      { parts: ['Widths: ', { parameter: 'widths' }], isRest: true },
      { parts: ['Yarns: ', { parameter: 'yarns' }], isRest: true },
      { parts: ['Tint: ', { parameter: 'tint' }], isRest: true },
    ]);
  });
  it('are plain lines where it has none, each parameter once', () => {
    const plain = sentencesOf({ parameters });
    expect(plain.every(({ isRest }) => isRest)).toBe(true);
    expect(plain[3]).toEqual({
      parts: ['Has knots: ', { parameter: 'hasKnots', on: 'yes', off: 'no' }],
      isRest: true,
    });
    expect(plain).toHaveLength(Object.keys(parameters).length);
    expect(sentencesOf({ parameters: {} })).toEqual([]);
  });
  it.each([
    ['warpSett', 'warp sett'],
    ['ends', 'ends'],
    ['layer2Depth', 'layer 2 depth'],
    ['gap10', 'gap 10'],
  ])('call %s "%s"', (name, words) => {
    expect(humanise(name)).toBe(words);
  });
});
