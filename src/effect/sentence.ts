import type { AnyEffect } from './effect.ts';
import type { Parameter, ParameterSet } from './parameter.ts';

/** Where the value of a parameter stands in a sentence. */
export interface Slot {
  readonly parameter: string;
  /** For a switch: what is said where it is on. */
  readonly on?: string;
  /** For a switch: what is said where it is off. */
  readonly off?: string;
  /** For a choice: what is said of each option; the options themselves where absent. */
  readonly words?: Readonly<Record<string, string>>;
}

/** What an effect does, in words with slots where its values stand. */
export interface Sentence {
  readonly parts: readonly (string | Slot)[];
  /** True for a plain line about a parameter that none of the effect's own sentences speaks of. */
  readonly isRest: boolean;
}

/** Braces as they stand in a sentence: the name, and what is said of each state after a colon. */
export interface Braces {
  readonly name: string;
  readonly phrases?: readonly string[];
}

/** The texts of a sentence and its braces, by turns as they come; whatever is between braces is taken as it is. */
export function splitSentence(text: string): readonly (string | Braces)[] {
  return text.split(/(\{[^{}]*\})/).flatMap((piece): (string | Braces)[] => {
    if (piece === '') return [];
    const inner = /^\{([^{}]*)\}$/.exec(piece)?.[1];
    return inner === undefined ? [piece] : [readBraces(inner)];
  });
}

function readBraces(inner: string): Braces {
  const colon = inner.indexOf(':');
  if (colon < 0) return { name: inner };
  const phrases = inner.slice(colon + 1).split('|');
  return { name: inner.slice(0, colon), phrases: phrases.map((phrase) => phrase.trim()) };
}

/**
 * All that an effect can be set to, as sentences: its own first, then a plain line for each parameter that they
 * leave out. Every parameter stands in exactly one slot.
 *
 * @param effect One that keeps the contract, or its description.
 */
export function sentencesOf(effect: Pick<AnyEffect, 'sentences' | 'parameters'>): Sentence[] {
  const parameters: ParameterSet = effect.parameters;
  const own = (effect.sentences ?? []).map((text): Sentence => {
    const parts = splitSentence(text).map((part) =>
      typeof part === 'string' ? part : slotFor(part, parameters[part.name]),
    );
    return { parts, isRest: false };
  });
  const said = new Set(
    own.flatMap(({ parts }) => parts.map((part) => typeof part === 'object' && part.parameter)),
  );
  const rest = Object.entries(parameters).filter(([name]) => !said.has(name));
  return [...own, ...rest.map(([name, parameter]) => plainLine(name, parameter))];
}

function slotFor({ name, phrases }: Braces, parameter: Parameter): Slot {
  if (phrases === undefined) return { parameter: name };
  if (parameter.kind === 'switch') return { parameter: name, on: phrases[0], off: phrases[1] };
  if (parameter.kind !== 'choice') return { parameter: name };
  const words = parameter.options.map((option, index) => [option, phrases[index]]);
  return { parameter: name, words: Object.fromEntries(words) };
}

function plainLine(name: string, { kind }: Parameter): Sentence {
  const slot = kind === 'switch' ? { parameter: name, on: 'yes', off: 'no' } : { parameter: name };
  const words = humanise(name);
  return { parts: [`${words.charAt(0).toUpperCase()}${words.slice(1)}: `, slot], isRest: true };
}

/** The name of a parameter as people say it: `warpSett` is "warp sett". */
export function humanise(name: string): string {
  return name.replace(/(?<=[a-z0-9])(?=[A-Z])|(?<=[a-zA-Z])(?=[0-9])/g, ' ').toLowerCase();
}
