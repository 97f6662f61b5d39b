import { type Sentence, sentencesOf } from '../../../effect/sentence.ts';
import type { EffectDescription } from '../../../render/description.ts';

/** Of an effect that brings no sentences, so many plain lines are shown at once. */
const PLAIN_LINES = 6;

/** What is said of an effect at once, and what only on asking. */
export interface Lines {
  readonly first: readonly Sentence[];
  readonly rest: readonly Sentence[];
}

/** All that an effect can be set to: its own sentences first, else its first parameters in plain lines. */
export function linesOf(effect: EffectDescription): Lines {
  const sentences = sentencesOf(effect);
  const own = sentences.filter(({ isRest }) => !isRest);
  if (own.length === 0) return { first: sentences.slice(0, PLAIN_LINES), rest: sentences.slice(PLAIN_LINES) };
  return { first: own, rest: sentences.filter(({ isRest }) => isRest) };
}
