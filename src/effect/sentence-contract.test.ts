import { describe, expect, it } from 'vitest';
import { Fault } from '../fault.ts';
import { checkEffect } from './contract.ts';
import { defineEffect } from './effect.ts';
import { choice, numeric, toggle } from './parameter.ts';

const help = 'What it is.';
const sample = defineEffect({
  apiVersion: 1,
  name: 'sample',
  version: '1.0.0',
  summary: 'A sample.',
  parameters: {
    ends: numeric({ unit: 'per cm', min: 4, max: 40, default: 12, help }),
    slub: numeric({ unit: 'ratio', min: 0, max: 1, default: 0.5, help }),
    depth: numeric({ unit: 's', min: 0, max: 9, default: 1, help }),
    weave: choice({ options: ['plain', 'twill'], default: 'plain', help }),
    knots: toggle({ default: true, help }),
  },
  retired: { warp: 'Write ends.' },
  planes: ['shade'],
  prepare: () => ({}),
  paint() {},
});
const speaking = (...sentences: unknown[]) => ({ ...sample, sentences });

function faultOf(candidate: unknown): Fault {
  try {
    checkEffect(candidate, 'here');
  } catch (error) {
    if (Fault.is(error)) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('the sentences that an effect brings', () => {
  it.each([
    [
      [
        'A {weave} weave of {ends} ends.',
        'Warp and weft {knots: with knots | without knots}, {slub} slubby.',
      ],
    ],
    [['{weave: Plain | A slanting} weave.']],
    // The unit of it is s, and none follows.
    [['Dried for {depth} so far, at {ends}.']],
    [[`${'x'.repeat(294)}{ends}`]],
  ])('are taken: %j', (sentences) => {
    const effect = speaking(...sentences);
    expect(checkEffect(effect, 'here')).toBe(effect);
  });
  it.each<[unknown, string]>([
    [
      { ...sample, sentences: 'A {weave} weave.' },
      'a list of 1 to 12 texts for here but received "A {weave} weave."',
    ],
    [speaking(), 'received 0 of them. Leave "sentences" out'],
    [speaking(...Array(13).fill('{ends}')), 'received 13 of them'],
    [speaking(7), 'here, sentence 1 but received 7'],
    [speaking(''), 'here, sentence 1'],
    [speaking('Of {ends} '), 'neither begins nor ends with a space'],
    [speaking(`${'x'.repeat(295)}{ends}`), '300 characters at most for here, sentence 1 but received 301'],
    [speaking('Of {ends}.', 'It is cloth.'), 'a slot such as {ends} for here, sentence 2'],
    [speaking('Of {ends.'), 'a slot such as'],
    [speaking('Of {ends} and } so on'), 'braces round slots alone for here, sentence 1 but received "}"'],
    [speaking('Of {ends} <b>ends</b>'), 'received "<"'],
    [speaking('Of {ends}\u202e'), 'received U+202E'],
    [speaking('Of {ends}\nand on'), 'received U+000A'],
    [speaking('Of {knots: a | <i>}'), 'received "<"'],
    [speaking('Of {end}.'), 'received {end}. Did you mean "ends"?'],
    [speaking('Of {toString}.'), 'the name of a parameter in each slot'],
    [speaking('Of { ends }.'), 'received { ends }'],
    [speaking('Of {}.'), 'received {}'],
    [speaking('Of {warp}.'), 'received {warp}. It is retired: Write ends.'],
    [speaking('Of {ends}.', 'Of {ends}.'), 'received ends, as in sentence 1'],
    [speaking('Of {ends} and {ends}.'), 'in one slot at most'],
    [speaking('It has {knots}.'), 'what is said where knots is on and where it is off'],
    [
      speaking('It has {knots: knots}.'),
      '2 phrases for knots for here, sentence 1 but received 1. Say one for each of on, off',
    ],
    [speaking('It has {knots: knots | }.'), 'received "knots", ""'],
    [speaking('It has {knots: knots | knots}.'), 'each another'],
    [speaking('A {weave: plain | twill | satin} weave.'), '2 phrases for weave'],
    [speaking('Of {ends: few | many}.'), 'Write {ends}: the value stands there with its unit'],
    [
      speaking('Of {ends} per cm.'),
      'no unit after {ends} for here, sentence 1 but received "per cm". Leave "per cm" out',
    ],
    [speaking('{slub}% slubby.'), 'received "%"'],
    [speaking('{slub} percent slubby.'), 'received "percent"'],
    [speaking('{depth} seconds.'), 'received "seconds"'],
  ])('are refused: case %#', (candidate, words) => {
    const fault = faultOf(candidate);
    expect(fault.kind).toBe('effect');
    expect(fault.message).toContain(words);
    expect(fault.remedy).toBeTruthy();
  });
});
