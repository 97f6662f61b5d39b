import type { Fault } from '../fault.ts';
import { suggestName } from '../nearest.ts';
import { describe, misshapen } from './misshapen.ts';
import type { Parameter, ParameterSet } from './parameter.ts';
import { type Braces, splitSentence } from './sentence.ts';
import { lengthOf } from './text-pattern.ts';
import { isShare, unitWords } from './value-words.ts';

/** Sentences that an effect may have. */
export const MOST_SENTENCES = 12;
/** Characters that a sentence may have, braces and all. */
export const LONGEST_SENTENCE = 300;

/** What the sentences of an effect are held against. */
export interface Spoken {
  readonly sentences?: unknown;
  readonly parameters: ParameterSet;
  readonly retired?: Readonly<Record<string, string>>;
}

/**
 * What is wrong with the sentences of an effect, one after the other.
 *
 * @param place Where the effect came from, for messages.
 */
export function* sentenceFaults({ sentences, parameters, retired }: Spoken, place: string): Generator<Fault> {
  if (sentences === undefined) return;
  if (!Array.isArray(sentences) || sentences.length < 1 || sentences.length > MOST_SENTENCES) {
    const received = Array.isArray(sentences) ? `${sentences.length} of them` : describe(sentences);
    yield misshapen(place, `sentences, a list of 1 to ${MOST_SENTENCES} texts`, received, LEAVE_OUT);
    return;
  }
  const said = new Map<string, number>();
  for (const [index, sentence] of [...sentences].entries()) {
    const owner = `${place}, sentence ${index + 1}`;
    yield* textFaults(sentence, owner);
    if (typeof sentence !== 'string') continue;
    const parts = splitSentence(sentence);
    for (const [at, part] of parts.entries()) {
      if (typeof part === 'string') continue;
      const before = said.get(part.name);
      if (before !== undefined) yield saidAgain(part.name, before, owner);
      said.set(part.name, index + 1);
      yield* slotFaults(part, { parameters, retired }, owner);
      yield* unitFaults(part, parts[at + 1], parameters, owner);
    }
  }
}

const LEAVE_OUT = 'Leave "sentences" out where there is nothing to say: plain lines are written then.';

/** What a page, a terminal or a screen reader would take for anything but letters, and what marks a slot. */
const STRANGE = /[\p{C}\p{Zl}\p{Zp}<>`{}|]/u;

function* textFaults(sentence: unknown, owner: string): Generator<Fault> {
  if (typeof sentence !== 'string' || sentence === '' || sentence.trim() !== sentence) {
    yield misshapen(owner, 'a text that neither begins nor ends with a space', describe(sentence));
    return;
  }
  const length = lengthOf(sentence);
  if (length > LONGEST_SENTENCE)
    yield misshapen(owner, `${LONGEST_SENTENCE} characters at most`, `${length}`, 'Make two of it.');
  const parts = splitSentence(sentence);
  if (parts.every((part) => typeof part === 'string'))
    yield misshapen(
      owner,
      'a slot such as {ends}',
      `"${sentence}"`,
      'What never changes belongs in the summary.',
    );
  for (const part of parts) {
    const texts = typeof part === 'string' ? [part] : [part.name, ...(part.phrases ?? [])];
    const strange = texts.map((text) => STRANGE.exec(text)?.[0]).find((letter) => letter !== undefined);
    if (strange !== undefined)
      yield misshapen(owner, 'plain text, with braces round slots alone', shown(strange));
  }
}

function shown(letter: string): string {
  const isVisible = /[<>`{}|]/.test(letter);
  return isVisible
    ? `"${letter}"`
    : `U+${letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;
}

function saidAgain(name: string, before: number, owner: string): Fault {
  const remedy = 'One value has one place: leave one of the two out.';
  return misshapen(owner, 'each parameter in one slot at most', `${name}, as in sentence ${before}`, remedy);
}

function* slotFaults(
  { name, phrases }: Braces,
  { parameters, retired = {} }: Omit<Spoken, 'sentences'>,
  owner: string,
): Generator<Fault> {
  if (!Object.hasOwn(parameters, name)) {
    const remedy = Object.hasOwn(retired, name)
      ? `It is retired: ${retired[name]}`
      : suggestName(name, Object.keys(parameters));
    yield misshapen(owner, 'the name of a parameter in each slot', `{${name}}`, remedy);
    return;
  }
  const states = statesOf(parameters[name]);
  if (phrases === undefined) {
    if (parameters[name].kind === 'switch') yield unsaidSwitch(name, owner);
    return;
  }
  if (states.length === 0) {
    const remedy = `Write {${name}}: the value stands there with its unit.`;
    yield misshapen(owner, 'words of its own for a switch or a choice alone', `them for ${name}`, remedy);
  } else if (phrases.length !== states.length) {
    const remedy = `Say one for each of ${states.join(', ')}, in this order.`;
    yield misshapen(owner, `${states.length} phrases for ${name}`, `${phrases.length}`, remedy);
  } else if (phrases.includes('') || new Set(phrases).size !== phrases.length) {
    const remedy = 'Whoever reads it must see which it is, and have a word to touch.';
    yield misshapen(owner, `phrases for ${name}, each another`, phrases.map(describe).join(', '), remedy);
  }
}

function unsaidSwitch(name: string, owner: string): Fault {
  const remedy = `Write {${name}: with it | without it} in your words.`;
  return misshapen(owner, `what is said where ${name} is on and where it is off`, `{${name}}`, remedy);
}

function statesOf(parameter: Parameter): readonly string[] {
  if (parameter.kind === 'switch') return ['on', 'off'];
  return parameter.kind === 'choice' ? parameter.options : [];
}

/** A unit after a slot, where the value has brought its own. */
function* unitFaults(
  { name }: Braces,
  next: string | Braces | undefined,
  parameters: ParameterSet,
  owner: string,
): Generator<Fault> {
  const parameter = Object.hasOwn(parameters, name) ? parameters[name] : undefined;
  if (parameter?.kind !== 'number' && parameter?.kind !== 'numbers') return;
  const said = unitWords(parameter).trim();
  const after = typeof next === 'string' ? next.trimStart() : '';
  const ways = [parameter.unit, said, ...(isShare(parameter) ? ['percent'] : []), ...(LONG[said] ?? [])];
  const again = ways.find(
    (way) => way !== '' && after.startsWith(way) && !/^\p{L}/u.test(after.slice(way.length)),
  );
  if (again === undefined) return;
  const remedy = `Leave "${again}" out: a value brings its unit.`;
  yield misshapen(owner, `no unit after {${name}}`, `"${again}"`, remedy);
}

/** Units as they are said at length. */
const LONG: Readonly<Record<string, readonly string[]>> = {
  '%': ['per cent'],
  '°': ['degrees'],
  '×': ['times'],
  mm: ['millimetres'],
  s: ['seconds'],
};
