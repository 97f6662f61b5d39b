import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkEffect } from '../src/effect/contract.ts';
import type { Parameter, ParameterValue } from '../src/effect/parameter.ts';
import { type Slot, sentencesOf } from '../src/effect/sentence.ts';
import { valueWords } from '../src/effect/value-words.ts';
import { describeEffect, type EffectDescription } from '../src/render/description.ts';

const folder = new URL('../plugins/', import.meta.url);
const names = readdirSync(folder).filter((name) => !/\.md$|^testing$/.test(name));

async function described(name: string): Promise<EffectDescription> {
  const { default: effect } = await import(new URL(`${name}/index.ts`, folder).href);
  return describeEffect(checkEffect(effect, name));
}

type Choose = (parameter: Parameter) => ParameterValue;

/** The values that a sentence must read well with: what is usual, and both ends of every range. */
const SETTINGS: Readonly<Record<string, Choose>> = {
  default: (parameter) => parameter.default,
  least: (parameter) => endOf(parameter, 0),
  greatest: (parameter) => endOf(parameter, -1),
};

function endOf(parameter: Parameter, at: 0 | -1): ParameterValue {
  switch (parameter.kind) {
    case 'number':
      return at === 0 ? parameter.min : parameter.max;
    case 'numbers':
      return Array(at === 0 ? parameter.least : parameter.most).fill(
        at === 0 ? parameter.min : parameter.max,
      );
    case 'choice':
      return parameter.options.at(at)!;
    case 'switch':
      return at === 0;
    default:
      return parameter.default;
  }
}

function read(effect: EffectDescription, choose: Choose): string[] {
  const wordsOf = (part: string | Slot) => {
    if (typeof part === 'string') return part;
    const parameter = effect.parameters[part.parameter];
    return valueWords(parameter, choose(parameter), part);
  };
  return sentencesOf(effect).map(({ parts }) => parts.map(wordsOf).join(''));
}

describe.each(names)('the sentences of %s', (name) => {
  it('name every parameter once, the four that matter most at least in its own words', async () => {
    const effect = await described(name);
    const slots = (rest: boolean) =>
      sentencesOf(effect)
        .filter(({ isRest }) => isRest === rest)
        .flatMap(({ parts }) => parts.flatMap((part) => (typeof part === 'string' ? [] : [part.parameter])));
    expect(slots(false).length).toBeGreaterThanOrEqual(4);
    expect([...slots(false), ...slots(true)].sort()).toEqual(Object.keys(effect.parameters).sort());
  });
  it.each(Object.entries(SETTINGS))('are whole sentences with every value at its %s', async (_, choose) => {
    const effect = await described(name);
    const own = read(effect, choose).slice(0, effect.sentences!.length);
    for (const sentence of own) {
      expect(sentence).toMatch(/^[A-Z0-9][^{}]+\.$/);
      expect(sentence).not.toMatch(/undefined|NaN|true|false| {2}|\ba [aeiou]/);
    }
  });
});

it('reads as a designer would say it', async () => {
  const read0 = async (name: string) => read(await described(name), SETTINGS.default)[0];
  expect(await read0('linen-weave')).toBe(
    'A plain weave, its threads 13 per cm in the warp and 12 per cm in the weft.',
  );
  expect(await read0('wood-grain')).toBe('Boards of oak, plain-sawn, with the grain upright.');
});

if (process.env.READ_ALOUD) {
  it('is printed to be read aloud', async () => {
    for (const name of names) {
      const effect = await described(name);
      console.log(`\n${name}: ${effect.summary}`);
      for (const [which, choose] of Object.entries(SETTINGS))
        console.log(
          `  ${which}:\n    ${read(effect, choose)
            .slice(0, which === 'default' ? 99 : effect.sentences!.length)
            .join('\n    ')}`,
        );
    }
  });
}
