import { splitSentence } from '../../sentence.ts';
import { sentenceFaults } from '../../sentence-contract.ts';
import type { Check } from '../check.ts';
import { Failed } from '../failed.ts';
import { swappedWords } from '../swapped-words.ts';
import { HOME } from '../trial.ts';

export const sentences: Check = {
  name: 'sentences',
  promise: 'Its sentences name its parameters, and say of each value what it is.',
  needs: [],
  async run({ effect }) {
    const texts = effect.sentences;
    if (texts === undefined) return { status: 'not applicable', note: 'it has none' };
    const [fault] = sentenceFaults(effect, effect.name);
    if (fault) {
      const { expected, subject, received, remedy = '' } = fault;
      throw new Failed(HOME, { expected: `${expected} (${subject})`, received, remedy });
    }
    for (const part of texts.flatMap(splitSentence)) {
      if (typeof part !== 'string')
        refuseSwapped(part.name, part.phrases, effect.parameters[part.name].options);
    }
    return { status: 'passed', figures: { sentences: texts.length } };
  },
};

function refuseSwapped(name: string, phrases: readonly string[] = [], options: readonly string[] = []): void {
  const swapped = swappedWords(phrases, options);
  if (!swapped) return;
  const [one, other] = swapped;
  throw new Failed(HOME, {
    expected: `what is said of ${options[one]} to be said of it, in the braces of ${name}`,
    received: `"${phrases[one]}", and of ${options[other]} "${phrases[other]}"`,
    remedy: `Say one for each of ${options.join(', ')}, in this order.`,
  });
}
